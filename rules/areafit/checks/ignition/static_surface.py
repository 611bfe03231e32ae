"""Insulating outer surfaces: how large, wide or thick they may be before they store a spark."""

from collections.abc import Iterator
from decimal import Decimal

from areafit.checks.ignition.assessment import awaits_papers
from areafit.checks.ignition.static import (
    StaticLimits,
    on_earthed_metal,
    static_limits,
    static_row,
)
from areafit.demands import Demands
from areafit.facts.evidence import Examined
from areafit.facts.fittings import Device
from areafit.facts.mechanics import Form
from areafit.facts.part import Body, Exposure, Kind, MaterialUse
from areafit.facts.quantity import Dimension, number, show
from areafit.rule import Answer, Ask, Example, Family, Judgement, Row, Rule, Subject
from areafit.tables import Tables
from areafit.tables.descriptions import described
from areafit.tables.limits import StaticLimit, figure
from areafit.tables.materials import SurfaceClass
from areafit.tables.words import is_added
from areafit.values import Frozen, Term, replace
from areafit.verdict import Reason, Role, Verdict
from areafit.wording import nearest_known, use_known_name


class Surface(Term):
    """How a surface carries charge away."""

    CARRIES = "conductive or dissipative"
    FILM = "thin oxide film on metal"
    INSULATES = "insulating"
    DEPENDS = "insulating or not, by filler or moisture"
    UNKNOWN = "not known"


class Beyond(Term):
    """Why the papers of a part say nothing of one of its surfaces."""

    ADDED = "added later"
    NOT_NAMED = "component not named"
    INTENSE = "intense charging"


class SurfaceQuestion(Frozen):
    """A surface, the limits of the place, and what the part's papers answer of it.

    `resistance` tells that the class rests on a stated value in Ω; lengths in m, area in m²,
    charge in C, voltage in V. `enclosed`: it is said to be no outer surface.
    `metal`: it lies on earthed metal. `nearest` holds known names where no table has this one.
    `own`: the part is structural, so that its designer knows it. `beyond` says why the papers do
    not reach this surface, if they do not.
    """

    name: str
    surface: Surface
    limits: StaticLimits
    resistance: Decimal | None = None
    area: Decimal | None = None
    width: Decimal | None = None
    thickness: Decimal | None = None
    metal: bool = False
    framed: bool = False
    charge: Decimal | None = None
    breakdown: Decimal | None = None
    enclosed: bool = False
    papers: Examined | None = None
    beyond: Beyond | None = None
    rows: tuple[Row, ...] = ()
    nearest: tuple[str, ...] = ()
    own: bool = False


class MaterialsNotListed(Frozen):
    """A part that does not state its materials, so that nothing is known of its surfaces."""

    limits: StaticLimits
    own: bool = False
    papers: Examined | None = None


Question = SurfaceQuestion | MaterialsNotListed


def _ask(body: Body, demands: Demands) -> Iterator[Ask[Question]]:
    found = [
        (static_limits(demands, each), body.papers(each.hazard), each.hazard in body.refused)
        for each in demands.hazards
    ]
    if body.materials is None and not _told_as_metal(body):
        for limits, papers, refused in found:
            if not (refused or awaits_papers(body.equipment, papers)):
                yield Ask(MaterialsNotListed(limits, _is_own(body), papers), "materials")
    for i, use in enumerate(body.materials or ()):
        key = "surface_area" if use.surface_area is not None else "material"
        for limits, papers, refused in found:
            question = _question(use, body, demands.tables, limits, papers)
            if refused and _judge_surface(question).verdict is Verdict.UNPROVEN:
                continue  # of a part that is flagged only what is over for sure is told
            yield Ask(question, f"materials/{i}/{key}", use.component)


def _told_as_metal(body: Body) -> bool:
    """Whether the part is described by its path to earth, which only metal has.

    Then nothing is asked here; that no materials are listed is said by `light-metal`.
    """
    facts = (body.bonded, body.resistance_to_earth, body.capacitance)
    return any(fact is not None for fact in facts)


_BY_CLASS = {
    SurfaceClass.CONDUCTIVE: Surface.CARRIES,
    SurfaceClass.DISSIPATIVE: Surface.CARRIES,
    SurfaceClass.INSULATING_FILM: Surface.FILM,
    SurfaceClass.DEPENDS: Surface.DEPENDS,
    SurfaceClass.INSULATING: Surface.INSULATES,
}
_WORST_FIRST = (
    Surface.INSULATES,
    Surface.DEPENDS,
    Surface.FILM,
    Surface.CARRIES,
)


def _question(
    use: MaterialUse,
    body: Body,
    tables: Tables,
    limits: StaticLimits,
    papers: Examined | None,
) -> SurfaceQuestion:
    """The question about one material of a part."""
    surface, rows, nearest = surface_of(use, tables)
    return SurfaceQuestion(
        use.material,
        surface,
        limits,
        use.surface_resistance,
        use.surface_area,
        use.width,
        use.layer_thickness,
        on_earthed_metal(use, body, tables),
        use.framed is True,
        use.charge,
        use.breakdown_voltage,
        use.exposure is Exposure.ENCLOSED,
        papers,
        _beyond(use, body, tables) if papers is not None else None,
        rows,
        nearest,
        _is_own(body),
    )


def _beyond(use: MaterialUse, body: Body, tables: Tables) -> Beyond | None:
    """Why the papers do not reach a surface, if they do not; a luminaire's cover is its own."""
    name = use.component
    if name is None:
        return Beyond.NOT_NAMED
    words = name.casefold().split()
    if use.form is not None or not _FORMS.isdisjoint(words):
        return Beyond.INTENSE
    of = words[:-1] if words[-1:] == ["cover"] else None
    own = of is not None and _is_lamp(body) and all(tables.materials(word) for word in of)
    return Beyond.ADDED if is_added(name) and not own else None


_FORMS = frozenset(form.value for form in Form)


def _is_lamp(body: Body) -> bool:
    """Whether the part is a luminaire, by `device` or by its description."""
    row = described(body.equipment.description or "")
    lamp = Device.LUMINAIRE
    return body.equipment.device is lamp or (row is not None and lamp.value in row.devices)


def _is_own(body: Body) -> bool:
    """Whether a part is structural and nothing else: made to a drawing of one's own."""
    return body.equipment.kinds == {Kind.STRUCTURAL}


SurfaceFound = tuple[Surface, tuple[Row, ...], tuple[str, ...]]


def surface_of(use: MaterialUse, tables: Tables) -> SurfaceFound:
    """The class by the stated resistance, else the worst that the material's name may mean.

    With it the rows, and the nearest known names where it is in no table. What is measured from the
    face of a belt to earth leads over its surface.
    """
    stated = use.surface_resistance
    if stated is None and use.form is Form.BELT:
        stated = use.resistance
    key = ("surface", use.material, stated)
    return tables.remembered(key, lambda: _surface(use.material, stated, tables))


def _surface(name: str, stated: Decimal | None, tables: Tables) -> SurfaceFound:
    if stated is not None:
        limit = figure("surface resistance")
        carries = stated <= limit.amount(Dimension.RESISTANCE)
        surface = Surface.CARRIES if carries else Surface.INSULATES
        return surface, (Row.of_figure(limit),), ()
    grades = tables.materials(name)
    if not grades:
        return Surface.UNKNOWN, (), tables.nearest("materials", name)
    found = {_BY_CLASS[grade.surface] for grade in grades}
    rows = tuple(
        Row.of("materials", f"{grade.id} surface", grade, grade.surface.value) for grade in grades
    )
    return next(each for each in _WORST_FIRST if each in found), rows, ()


_CM2 = Decimal("0.0001")
_MM = Decimal("0.001")
_NC = Decimal("1E-9")


class WayOut(Frozen):
    """Why an insulating surface may stand in the atmosphere, and the figures that say so.

    They are cited beside the limits of the level and group.
    """

    why: str
    figures: tuple[str, ...] = ()

    @property
    def rows(self) -> tuple[Row, ...]:
        """The figures as a judgement cites them."""
        return tuple(Row.of_figure(figure(name)) for name in self.figures)


_FRAMED = "framed area"
_DUST = "area in dust on which sources agree"
_BREAKDOWN = "breakdown voltage of a layer on metal"
_PAINT = "layer on metal without a breakdown test"
_THICK = "thickness of a layer on metal in dust"
_THICKER = "thickness of a layer on metal in dust on which sources agree"


def _largest_area(question: SurfaceQuestion, limit: StaticLimit) -> Decimal:
    """The area in m² above which a surface is too large: more inside an earthed frame."""
    return _inside_frame(question, limit.area_cm2 * _CM2)


def _proven_area(question: SurfaceQuestion, limit: StaticLimit) -> Decimal:
    """The area in m² up to which a surface is free: in dust that on which all sources agree."""
    if not question.limits.dust:
        return _largest_area(question, limit)
    return _inside_frame(question, figure(_DUST).amount(Dimension.AREA))


def _inside_frame(question: SurfaceQuestion, area: Decimal) -> Decimal:
    return area * figure(_FRAMED).amount(Dimension.FRACTION) / 100 if question.framed else area


def _way_out(question: SurfaceQuestion, limit: StaticLimit) -> WayOut | None:
    """The stated fact that frees an insulating surface at these limits, if any does."""
    if question.area is not None and question.area <= _proven_area(question, limit):
        figures = (_DUST,) if question.limits.dust else ()
        return WayOut("its area is within the limit", (*figures, *_frame(question)))
    if _within(question.width, limit.width_mm, _MM):
        return WayOut("it is a long part within the limit of width")
    if _within(question.charge, limit.charge_nc, _NC):
        return WayOut("a test transferred no more charge than the limit")
    return _layer(question, limit) if question.metal else None


def _layer(question: SurfaceQuestion, limit: StaticLimit) -> WayOut | None:
    """A layer on earthed metal. One that stands a high voltage feeds a propagating brush.

    One of paint is so thin that it needs no test; in dust a thick one does not feed it either.
    """
    if not question.limits.dust:
        if _thin(question, limit) and _breaks_down(question):
            return WayOut("it is a thin layer on earthed metal", (_BREAKDOWN,))
        if _thin(question, limit) and _needs_no_test(question):
            return WayOut("it is a thin layer on earthed metal", (_PAINT,))
        return None
    if _breaks_down(question):
        why = "its layer on earthed metal breaks down before it can store a dangerous charge"
        return WayOut(why, (_BREAKDOWN,))
    thick = figure(_THICKER).amount(Dimension.LENGTH)
    if question.thickness is not None and question.thickness >= thick:
        why = "its layer on metal is too thick for a propagating discharge"
        return WayOut(why, (_THICK, _THICKER))
    return None


def _between_thicknesses(question: SurfaceQuestion) -> bool:
    """In dust a layer on metal that one source takes as too thick to feed a discharge, one not."""
    thickness = question.thickness
    return (
        question.limits.dust
        and question.metal
        and thickness is not None
        and figure(_THICK).amount(Dimension.LENGTH) <= thickness
        and not _over_charge(question, question.limits.governing)
    )


def _layer_open(question: SurfaceQuestion, limit: StaticLimit) -> bool:
    """Whether a layer on earthed metal would do, if a test showed that it breaks down.

    In gas one that is thin enough, or not said to be thicker; in dust one as thin as paint, since
    a thicker one breaks down at no low voltage, or one that is not said to be thicker.
    """
    if not question.metal or question.breakdown is not None or _over_charge(question, limit):
        return False
    if question.thickness is None:
        return True
    return _needs_no_test(question) if question.limits.dust else _thin(question, limit)


def _over_charge(question: SurfaceQuestion, limit: StaticLimit) -> bool:
    return _over(question.charge, limit.charge_nc, _NC)


def _thin(question: SurfaceQuestion, limit: StaticLimit) -> bool:
    return _within(question.thickness, limit.layer_mm, _MM)


def _needs_no_test(question: SurfaceQuestion) -> bool:
    """Whether no test is stated, and none is needed."""
    paint = figure(_PAINT).amount(Dimension.LENGTH)
    thickness = question.thickness
    return question.breakdown is None and thickness is not None and thickness <= paint


def _breaks_down(question: SurfaceQuestion) -> bool | None:
    """Whether a layer breaks down at a low enough voltage; None where no test is stated."""
    volts = figure(_BREAKDOWN).amount(Dimension.VOLTAGE)
    return None if question.breakdown is None else question.breakdown <= volts


def _frame(question: SurfaceQuestion) -> tuple[str, ...]:
    return (_FRAMED,) if question.framed else ()


def _within(value: Decimal | None, limit: Decimal | None, unit: Decimal) -> bool:
    return value is not None and limit is not None and value <= limit * unit


def _fails(question: SurfaceQuestion, limit: StaticLimit) -> bool:
    """Whether a figure that is stated is over its limit; a missing one does not fail."""
    over_area = question.area is not None and question.area > _largest_area(question, limit)
    return (
        over_area
        or _over(question.width, limit.width_mm, _MM)
        or _over_charge(question, limit)
        or (question.metal and _over(question.thickness, limit.layer_mm, _MM))
        or (question.metal and _breaks_down(question) is False)
    )


def _over(value: Decimal | None, limit: Decimal | None, unit: Decimal) -> bool:
    return value is not None and limit is not None and value > limit * unit


def _judge(question: Question) -> Judgement:
    """By itself, or by what was examined with the equipment."""
    if isinstance(question, MaterialsNotListed):
        return _not_listed(question)
    own, papers = _judge_surface(question), question.papers
    if own.verdict is Verdict.PASS or papers is None:
        return own
    if papers.paper is not None and question.beyond is None:
        return _by_papers(papers, Answer(own.required, own.found))
    remedy = own.remedy or _REMEDY
    if papers.lacks:
        why, more = f"Its documents do not answer it: {papers.lacks}.", _SETTLE
    else:
        why, more = _WHY_NOT[question.beyond], _MORE.get(question.beyond, "")
    return replace(own, message=f"{own.message} {why}", remedy=f"{remedy}{more}")


_SETTLE = " Or settle what the documents lack."
_WHY_NOT = {
    Beyond.ADDED: "Its documents do not answer for what is, or may be, added later.",
    Beyond.NOT_NAMED: "Its documents answer for the maker's own housing. Which component this is, "
    "is not said.",
    Beyond.INTENSE: "Its documents do not answer where charging is intense, as on belts and in "
    "hoses.",
    None: "",
}
_MORE: dict[Beyond | None, str] = {Beyond.NOT_NAMED: " Or name the `component` that it is of."}


def _by_papers(papers: Examined, answer: Answer) -> Judgement:
    return replace(answer, clause=_CLAUSE).passed(
        f"Examined with the equipment that it is of: {papers.by}."
    )


def _not_listed(question: MaterialsNotListed) -> Judgement:
    answer = Answer(_required(question.limits), "not stated")
    if question.papers is not None and question.papers.paper is not None:
        return _by_papers(question.papers, answer)
    return answer.unproven(
        Reason.FACT_MISSING,
        "No materials are stated, so whether a surface can be charged is not known.",
        remedy="State `materials`; of what is not metal its `surface_area` too.",
        answer_by=_role(own=question.own),
    )


def _judge_surface(question: SurfaceQuestion) -> Judgement:
    """The surface as such, whatever papers say of it."""
    limits = question.limits
    required = _required(limits)
    answer = Answer(required=required, found=_found(question))
    mildest = (static_row(limits.mildest, required), *question.rows)
    if question.surface is Surface.UNKNOWN:
        return _unknown(question, replace(answer, rows=mildest))
    if question.enclosed:
        return replace(answer, clause="IEC 60079-0:2017 7.4.1").passed(
            "No outer surface: it is said to be enclosed."
        )
    if question.surface in (Surface.CARRIES, Surface.FILM):
        return _carries(question, answer)
    governing = (static_row(limits.governing, required), *question.rows)
    free = _way_out(question, limits.governing)
    if free is not None:
        return replace(answer, rows=(*governing, *free.rows)).passed(f"Insulating, but {free.why}.")
    return _not_free(question, replace(answer, rows=mildest))


def _unknown(question: SurfaceQuestion, answer: Answer) -> Judgement:
    """A name in no table is never a pass, however small the surface: it may be of metal."""
    return answer.unproven(
        Reason.NAME_UNKNOWN,
        f"{question.name!r} is in no table, so whether it insulates is not known."
        f"{nearest_known(question.nearest)}",
        remedy=use_known_name(question.nearest, "state `surface_resistance`"),
        answer_by=_role(own=question.own),
    )


def _carries(question: SurfaceQuestion, answer: Answer) -> Judgement:
    limit = Row.of_figure(figure("surface resistance"))
    rows = tuple(dict.fromkeys((limit, *question.rows)))
    return replace(answer, clause="IEC 60079-0:2017 7.4.2 a)", rows=rows).passed(
        f"The surface does not keep a charge: {question.surface.value}."
    )


def _not_free(question: SurfaceQuestion, answer: Answer) -> Judgement:
    """Over the limits, or of a size that is not stated."""
    limits, name = question.limits, question.name
    if _layer_open(question, limits.governing):
        return _untested_layer(question, answer)
    if _between_thicknesses(question):
        return _disputed_thickness(question, answer)
    stands = question.metal and _breaks_down(question) is False
    compared = ((_FRAMED, question.framed), (_BREAKDOWN, stands))
    figures = (Row.of_figure(figure(name)) for name, counts in compared if counts)
    answer = replace(answer, rows=(*answer.rows, *figures))
    sure = question.surface is Surface.INSULATES
    if sure and _fails(question, limits.mildest) and _way_out(question, limits.mildest) is None:
        return answer.flagged(
            f"{name} insulates, and its surface is over the limit{_even(limits)}.",
            remedy=_SMALLER,
            answer_by=_role(own=question.own),
        )
    if limits.gap is not None and _fails(question, limits.governing):
        return answer.unproven(
            limits.gap.reason,
            f"{name} {'insulates' if sure else 'may insulate'}, and its surface is over the limit "
            f"of IIC. Whether IIC counts is not known: {limits.gap.message}.",
            remedy=limits.gap.remedy,
            answer_by=Role.AREA_OWNER,
        )
    if question.area is not None and not _fails(question, limits.governing):
        return _disputed(question, answer)
    if _fails(question, limits.governing):
        what = f"is over the limit {_IF[sure]}"
    else:
        what = f"{'the size of its surface is not' if sure else _NEITHER} stated"
    return answer.unproven(
        Reason.FACT_MISSING,
        f"{name} {_INSULATES[sure]}, and {what}.",
        remedy=_REMEDY if question.area is None else _MEASURED,
        answer_by=_role(own=question.own),
    )


def _disputed(question: SurfaceQuestion, answer: Answer) -> Judgement:
    """In dust, between the areas that sources give: the more onerous one governs."""
    least = figure(_DUST)
    figures = (Row.of_figure(figure(name)) for name in (_DUST, *_frame(question)))
    return replace(answer, clause=least.clause, rows=(*answer.rows, *figures)).unproven(
        Reason.NO_DATA,
        f"Sources disagree on the area that dust allows: {least.value}, or "
        f"{number(question.limits.governing.area_cm2)} cm². This surface lies between.",
        remedy=f"Read IEC 60079-0:2017 7.4.3 and let the reader accept it, or make the surface "
        f"no larger than {least.value}, choose a dissipative grade and state "
        "`surface_resistance`, or state `charge` from a test.",
        answer_by=_role(own=question.own),
    )


def _disputed_thickness(question: SurfaceQuestion, answer: Answer) -> Judgement:
    """In dust, a layer on metal between the thicknesses that sources give."""
    least, agreed = figure(_THICK), figure(_THICKER)
    rows = (*answer.rows, Row.of_figure(least), Row.of_figure(agreed))
    return replace(answer, clause=agreed.clause, rows=rows).unproven(
        Reason.NO_DATA,
        f"Sources disagree on how thick a layer on metal no longer feeds a propagating brush in "
        f"dust: {least.value}, or {agreed.value}. This one lies between.",
        remedy=f"Choose a layer of `layer_thickness: {agreed.value}` or more, or a dissipative "
        "grade and state `surface_resistance`; or let somebody accept it who knows how hard the "
        "dust charges it.",
        answer_by=_role(own=question.own),
    )


def _untested_layer(question: SurfaceQuestion, answer: Answer) -> Judgement:
    """A layer on earthed metal of which the test, or how thick it is, is not stated."""
    volts, paint = figure(_BREAKDOWN), figure(_PAINT)
    rows = (*answer.rows, Row.of_figure(volts), Row.of_figure(paint))
    lies = f"{question.name} lies on earthed metal"
    feeds = f"Above {volts.value} it feeds a propagating brush discharge, however thin."
    if question.limits.dust:
        thick = figure(_THICKER)
        rows = (*rows, Row.of_figure(thick))
        missing = f"{lies}; the voltage that it withstands is not stated. {feeds}"
        remedy = (
            f"State `breakdown_voltage` from a test of the layer; at most {volts.value} will do, "
            f"and a layer of {thick.value} and more needs no test."
        )
    elif question.thickness is None:
        missing = f"{lies}; how thick it is, is not stated."
        remedy = (
            f"State `layer_thickness`; a layer of more than {paint.value} states "
            "`breakdown_voltage` too."
        )
    else:
        missing = (
            f"{lies} and is thin enough; the voltage that it withstands is not stated. {feeds}"
        )
        remedy = (
            "State `breakdown_voltage` from a test of the layer, or choose one of at most "
            f"{paint.value}."
        )
    return replace(answer, clause=volts.clause, rows=rows).unproven(
        Reason.FACT_MISSING, missing, remedy=remedy, answer_by=_role(own=question.own)
    )


def _role(*, own: bool) -> Role:
    """Who knows the surface: of a structural part the one who designs it."""
    return Role.DESIGNER if own else Role.SUPPLIER


def _even(limits: StaticLimits) -> str:
    """Where the place may be of two groups with limits of their own: that the milder is passed."""
    if limits.mildest.area_cm2 == limits.governing.area_cm2:
        return ""
    return f", even that of {limits.mildest.group}"


_SMALLER = (
    "Make the surface smaller than the limit, choose a dissipative grade and state "
    "`surface_resistance`, or divide it by an earthed metal frame and state `framed: true`."
)


_INSULATES = {True: "insulates", False: "may insulate, by filler or moisture"}
_IF = {True: "of the more onerous group that the place may have", False: "if it does"}
_NEITHER = "neither `surface_resistance` nor `surface_area` is"


def _required(limits: StaticLimits) -> str:
    limit = limits.governing
    words = [f"at most {_area_words(limits)}"]
    if limit.width_mm is not None:
        words.append(f"{number(limit.width_mm)} mm wide")
    if limit.layer_mm is not None:
        words.append(f"{number(limit.layer_mm)} mm on earthed metal")
    words.append(f"{number(limit.charge_nc)} nC in a test")
    return f"{' or '.join(words)} ({limits.whose}); free at 1 GΩ and less"


def _area_words(limits: StaticLimits) -> str:
    largest = f"{number(limits.governing.area_cm2)} cm²"
    return f"{figure(_DUST).value} (other sources: {largest})" if limits.dust else largest


def _found(question: SurfaceQuestion) -> str:
    figures = (
        (question.resistance, Dimension.RESISTANCE, ""),
        (question.area, Dimension.AREA, ", framed" if question.framed else ""),
        (question.width, Dimension.LENGTH, " wide"),
        (question.thickness, Dimension.LENGTH, " thick" + _backing(question)),
        (question.charge, Dimension.CHARGE, ""),
        (question.breakdown, Dimension.VOLTAGE, " breakdown"),
    )
    stated = [show(value, unit) + more for value, unit, more in figures if value is not None]
    return ", ".join([f"{question.name} ({question.surface.value})", *stated])


def _backing(question: SurfaceQuestion) -> str:
    return " on earthed metal" if question.metal else ""


_CLAUSE = "IEC 60079-0:2017 7.4; ISO 80079-36:2016 6.7"
_REMEDY = (
    "State `surface_area` or `surface_resistance`, choose a dissipative grade, or divide the "
    "surface by an earthed metal frame and state `framed: true`. Of what lies inside a closed "
    "housing or between faces that it seals state `exposure: enclosed`."
)

_MEASURED = (
    "State `surface_resistance`, make the surface smaller than the limit, or divide it by an "
    "earthed metal frame and state `framed: true`."
)

STATIC_SURFACE = Rule[Question](
    id="static-surface",
    title="Insulating surfaces are too small to light the atmosphere",
    family=Family.IGNITION,
    subject=Subject.BODY,
    clause="IEC 60079-0:2017 7.4.2, 7.4.3; IEC 60079-14:2013 6.5; ISO 80079-36:2016 6.7",
    why="Plastic that is rubbed, wiped or flowed past keeps its charge and gives it off in a "
    "brush discharge; the larger the surface and the more onerous the group, the sooner it lights.",
    remedy=_REMEDY,
    answer_by=Role.SUPPLIER,
    note="A marking answers it for the maker's own housing, with a document that serves for it, at "
    "the level, group and ambient of the place and with the conditions of its X met; not for what "
    "was added (`areafit table added_parts`), nor where charging is intense. Area is the largest "
    "projection. The 2017 edition asks that a layer on metal breaks down at 4 kV or less for gas "
    "too; earlier ones for dust only. Sources disagree on the area limits for dust (500 mm² by "
    "what could be read, 100 cm² as recalled of newer editions) and on thick layers in it: 8 mm of "
    "equipment, 10 mm where dust flows. A Division 1 is read as level b unless the place states "
    "level a, a Division 2 as level c, and a Division letter as the more onerous IEC group that "
    "its gases have. IEC 60079-14 exempts cables; they are judged here all the same.",
    ask=_ask,
    judge=_judge,
    examples=(
        Example(
            "A PTFE cover of 80 cm² in IIB",
            Verdict.PASS,
            "{kind: structural, materials: "
            "[{component: cover, material: PTFE, surface_area: 80 cm²}]}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
        Example(
            "The same in IIC",
            Verdict.FLAG,
            "{kind: structural, materials: "
            "[{component: cover, material: PTFE, surface_area: 80 cm²}]}",
            "{area: 'Zone 1, IIC, T3'}",
        ),
        Example(
            "Framed by earthed metal",
            Verdict.PASS,
            "{kind: structural, materials: "
            "[{component: window, material: PC, surface_area: 80 cm², framed: true}]}",
            "{area: 'Zone 1, IIC, T3'}",
        ),
        Example(
            "A powder coat on earthed metal in IIC",
            Verdict.PASS,
            "{kind: structural, materials: [{component: coating, material: epoxy paint, "
            "layer_thickness: 0.1 mm, backing: earthed metal}]}",
            "{area: 'Zone 1, IIC, T3'}",
        ),
        Example(
            "A cover of 80 cm² in dust: sources give 5 and 100 cm²",
            Verdict.UNPROVEN,
            "{kind: structural, materials: "
            "[{component: cover, material: PTFE, surface_area: 80 cm²}]}",
            "{area: 'Zone 21, IIIB, T120 °C'}",
        ),
        Example(
            "A seal between two faces",
            Verdict.PASS,
            "{kind: structural, materials: "
            "[{component: gasket, material: FKM, exposure: enclosed}]}",
            "{area: 'Zone 1, IIC, T3'}",
        ),
        Example(
            "A seal of which only the name is stated",
            Verdict.UNPROVEN,
            "{kind: structural, materials: [{component: gasket, material: FKM}]}",
            "{area: 'Zone 1, IIC, T3'}",
        ),
        Example(
            "A plastic cover of unknown size",
            Verdict.UNPROVEN,
            "{kind: structural, materials: [{component: cover, material: PTFE}]}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
    ),
)

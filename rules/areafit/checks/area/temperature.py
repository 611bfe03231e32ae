"""Temperature class or hottest surface against the declared class and what may ignite."""

from collections.abc import Iterator
from decimal import Decimal

from areafit.checks.area.ambient import local_air
from areafit.checks.area.general_purpose import FITTINGS, cited, general_row, general_use
from areafit.checks.area.nameplate import Candidate, ChosenCodes, is_intrinsically_safe
from areafit.demands import Demands, Limit, unaccepted
from areafit.demands.demand import Gap, asked_level
from areafit.facts.fittings import Device
from areafit.facts.marking import Code, TemperatureMark
from areafit.facts.part import Equipment, Kind, SurfaceCase, SurfaceTemperature
from areafit.facts.protection import Hazard, Law, MarkingSystem
from areafit.facts.quantity import Dimension, Range, number
from areafit.marking.temperature import class_limits
from areafit.rule import Answer, Ask, Example, Family, Judgement, Row, Rule, Subject, of_a_pass
from areafit.tables.descriptions import described
from areafit.tables.limits import figure
from areafit.values import Frozen, replace
from areafit.verdict import Reason, Role, Verdict
from areafit.wording import capital


class Share(Frozen):
    """The percentage of an ignition temperature in °C that a surface may reach, and whose."""

    percent: Decimal
    clause: str
    row: Row


class TemperatureQuestion(Frozen):
    """Do the hottest surfaces stay within these limits?

    Where neither class nor surface is stated, `device_stated` says that the kind of device is,
    `no_fitting` that the part can be no gland or plug, `called` which one its name says, and
    `cold_would_do` that a part which makes no heat may go without them.
    """

    temperatures: tuple[TemperatureMark, ...]
    ambient_default: Range | None
    surface: SurfaceTemperature | None
    site: Range | None
    limits: tuple[Limit, ...]
    gaps: tuple[Gap, ...]
    share: Share | None = None
    overloadable: bool | None = None
    heat_free: bool = False
    needed_case: SurfaceCase | None = None
    device_stated: bool = False
    cold_would_do: bool = False
    no_fitting: bool = False
    called: Device | None = None

    @classmethod
    def of(cls, choice: Candidate) -> "TemperatureQuestion":
        """The facts of a part with the demands of its place."""
        equipment, demands, hazard = choice.equipment, choice.demands, choice.hazard
        code = choice.code
        marks = code.temperatures if code is not None else ()
        bare = not marks and equipment.surface is None
        return cls(
            marks,
            code.ambient if code is not None else None,
            equipment.surface,
            local_air(equipment, demands),
            hazard.limits,
            hazard.temperature_gaps,
            _share(choice) if not marks else None,
            _overloadable(equipment) if hazard.hazard is Hazard.FIBRES else None,
            _heat_free(equipment, demands, code),
            _needed_case(choice) if not marks else None,
            device_stated=bare and equipment.device is not None,
            cold_would_do=bare and equipment.heat_producing is None and _may_be_cold(demands, code),
            no_fitting=bare and equipment.device is None and is_no_fitting(equipment, code),
            called=called_fitting(equipment, code) if bare else None,
        )


def _ask(plate: ChosenCodes, _: Demands) -> Iterator[Ask[TemperatureQuestion]]:
    """Electrical and marked parts: of others `hot-surface` judges what they state."""
    surface = plate.equipment.surface
    if not (plate.equipment.electrical or plate.equipment.markings):
        return
    for choice in plate.asked if surface is None else plate.chosen:
        bare = choice.component and not (choice.code and choice.code.temperatures)
        if surface is None and (choice.flagged or bare):
            continue
        question = TemperatureQuestion.of(choice)
        marked = question.temperatures or surface is None
        yield Ask(question, choice.path if marked else "surface_temperature")


def _heat_free(equipment: Equipment, demands: Demands, code: Code | None) -> bool:
    """Who may go without a temperature class.

    Fittings may; other equipment that makes no heat by NFPA 70 alone, outside its zones, which
    names junction boxes (500.8(C)(4)).
    """
    if is_fitting(equipment, code) or _is_unmarked_fitting(equipment):
        return True
    cold = equipment.heat_producing is False or (
        equipment.heat_producing is None and equipment.device is Device.JUNCTION_BOX
    )
    return cold and _may_be_cold(demands, code)


_DOES_NO_WORK = frozenset({Device.JUNCTION_BOX, Device.SWITCH, Device.PUSH_BUTTON})


def _overloadable(equipment: Equipment) -> bool | None:
    """As stated; what does no work cannot be overloaded, as motors and transformers can (503.5)."""
    idle = equipment.overloadable is None and equipment.device in _DOES_NO_WORK
    return False if idle else equipment.overloadable


def _may_be_cold(demands: Demands, code: Code | None) -> bool:
    zone = code is not None and code.system is not MarkingSystem.NEC_DIVISION
    return demands.law is Law.NEC and not zone


# The types of enclosure that such a fitting keeps closed; a fitting of any other type is none.
_TYPES = frozenset({"d", "da", "db", "dc", "e", "eb", "ec", "nR", "t", "ta", "tb", "tc", "tD"})
_WORDS = frozenset({"explosionproof", "dust-ignitionproof"})


def is_fitting(equipment: Equipment, code: Code | None) -> bool:
    """Whether a part is a gland, plug, adapter or seal, and nothing that it states denies it."""
    return code is not None and _says_so(equipment) and _may_be(code)


def _is_unmarked_fitting(equipment: Equipment) -> bool:
    """The same of one that is said to bear no marking at all."""
    return equipment.markings == () and _says_so(equipment)


def _says_so(equipment: Equipment) -> bool:
    return (
        equipment.device in FITTINGS
        and equipment.kinds == {Kind.ELECTRICAL}
        and equipment.electrical_content in (None, "none")
        and equipment.arcing is not True
        and equipment.heat_producing is not True
        and not equipment.entries
    )


def called_fitting(equipment: Equipment, code: Code | None) -> Device | None:
    """The gland, plug, adapter or seal that a part is by its description, where none is stated."""
    if equipment.device is not None or is_no_fitting(equipment, code):
        return None
    told = described(equipment.description or "")
    devices = told.devices if told is not None else ()
    return next((one for one in Device if one in FITTINGS and one.value in devices), None)


def is_no_fitting(equipment: Equipment, code: Code | None) -> bool:
    """Whether a part of which no device is stated cannot be a gland, plug, adapter or seal."""
    if equipment.kinds != {Kind.ELECTRICAL} or equipment.entries:
        return True
    if code is not None and not _may_be(code):
        return True
    told = described(equipment.description or "")
    if told is None or not (told.electrical and told.devices):
        return False
    return not any(device.value in told.devices for device in FITTINGS)


def _may_be(code: Code) -> bool:
    """Whether a nameplate like this may stand on a fitting."""
    if code.non_electrical or code.outputs or code.associated or code.purge is not None:
        return False
    if code.system is MarkingSystem.NEC_DIVISION:
        return not is_intrinsically_safe(code) and set(code.words) <= _WORDS
    return bool(code.protection) and set(code.protection) <= _TYPES


def _share(choice: Candidate) -> Share | None:
    """The share of the ignition temperature in °C that an unmarked surface may reach."""
    equipment, areas = choice.equipment, choice.hazard.areas
    if choice.demands.law is not Law.NEC:
        asked = asked_level(choice.demands, choice.hazard)
        best = asked.rank == 0 and asked.hazard is Hazard.GAS
        return _share_of("level a") if best and not equipment.electrical else None
    use = general_use(equipment, choice.demands, choice.missing)
    if use is None:
        return None
    rows = [general_row(area, use) for area in areas]
    shares = [Share(row.share_pct, row.clause, cited(row)) for row in rows if row is not None]
    if use.space_heater:
        shares.append(_share_of("a space heater"))
    return min((s for s in shares if s.percent < 100), key=lambda s: s.percent, default=None)


def _share_of(what: str) -> Share:
    row = figure(f"share of the ignition temperature for {what}")
    return Share(row.amount(Dimension.FRACTION), row.clause, Row.of_figure(row))


def _needed_case(choice: Candidate) -> SurfaceCase | None:
    """In which state a surface must have been found: worse states count in worse zones."""
    if choice.demands.law is Law.NEC:
        return None
    cases = (SurfaceCase.RARE_MALFUNCTION, SurfaceCase.EXPECTED_MALFUNCTION, SurfaceCase.NORMAL)
    return cases[asked_level(choice.demands, choice.hazard).rank]


def judge_temperature(question: TemperatureQuestion) -> Judgement:
    """Compare the hottest stated surface with every limit, then name what is not known."""
    limits = _limits(question)
    surface = _hottest(question)
    rows = tuple(dict.fromkeys(row for limit in limits for row in limit.rows))
    answer = Answer(_required(limits), surface.words, rows)
    if surface.value is None:
        return answer.unproven(
            Reason.FACT_MISSING, surface.problem, remedy=surface.remedy, answer_by=surface.role
        )
    open_limit, value = None, surface.value
    for limit in sorted(limits, key=lambda each: each.maximum):
        if limit.keeps(value):
            continue
        at_limit = value == limit.maximum and limit.no_margin_at_limit
        if at_limit or limit.uncertain:
            open_limit = open_limit or limit
            continue
        over = "above" if value > limit.maximum else "not below"
        return replace(answer, clause=limit.clause, rows=limit.rows).flagged(
            f"{capital(surface.words)} is {over} {number(limit.maximum)} °C: {limit.cause}.",
            remedy=_cooler(question, limits),
        )
    if open_limit is not None:
        return _open(question, open_limit, value, replace(answer, clause=open_limit.clause))
    if surface.problem:
        return answer.unproven(Reason.FACT_MISSING, surface.problem, remedy=surface.remedy)
    if question.gaps:
        return question.gaps[0].leaves(answer)
    answer = replace(answer, rows=of_a_pass(rows))
    return answer.passed(f"{capital(surface.words)} stays within the limit.")


def _cooler(question: TemperatureQuestion, limits: tuple[Limit, ...]) -> str:
    """What would do instead; a cooler surface beside a class that is printed does not."""
    lowest = min(limits, key=lambda limit: limit.maximum)
    marked = f"Choose a part whose `marking` shows a temperature {lowest.words}"
    if question.temperatures:
        own = _marked(question).value
        # Its class would do, what is stated beside it does not.
        if own is not None and lowest.keeps(own) and question.surface is not None:
            return f"Choose a part whose hottest surface is {lowest.words}, and state {_SURFACE}."
        return f"{marked}."
    return f"{marked}, or one whose hottest surface was found to be so, and state {_SURFACE}."


_SURFACE = "`surface_temperature: {value: …, at_ambient: …, case: …, source: …}`"


def _limits(question: TemperatureQuestion) -> tuple[Limit, ...]:
    """The limits as they hold for this part: a share of what ignites, and its own overload."""
    found = []
    for limit in question.limits:
        if limit.overload:
            if question.overloadable is False:
                continue
            limit = replace(limit, uncertain=question.overloadable is None)  # noqa: PLW2901
        if question.share is not None and limit.ignition:
            share = question.share.percent
            limit = replace(  # noqa: PLW2901
                limit,
                maximum=limit.maximum * share / 100,
                cause=f"{number(share)} % of {number(limit.maximum)} °C, as {limit.cause}",
                clause=question.share.clause,
                inclusive=True,
                no_margin_at_limit=False,
                rows=(*limit.rows, question.share.row),
            )
        found.append(limit)
    return tuple(found)


def _open(question: TemperatureQuestion, limit: Limit, value: Decimal, answer: Answer) -> Judgement:
    if value == limit.maximum and limit.no_margin_at_limit:
        return answer.unproven(
            Reason.NO_MARGIN,
            f"{capital(answer.found)} equals the limit ({limit.cause}): not above it, but without "
            "any margin.",
            remedy=f"{_cooler(question, (limit,))[:-1]}; or have the lack of margin accepted in a "
            "waiver.",
        )
    if limit.milder is not None:
        stated, row = limit.milder
        return unaccepted(answer.found, f"{number(stated)} °C", row, limit.cause, answer)
    overload = "State `overloadable: false` with the maker's word for it."
    remedy = overload if limit.overload else limit.cure
    return answer.unproven(
        Reason.CONDITION_TO_ACCEPT,
        f"{capital(answer.found)} is above {number(limit.maximum)} °C: {limit.cause}.",
        remedy=remedy,
    )


def _required(limits: tuple[Limit, ...]) -> str:
    if not limits:
        return "not known"
    lowest = min(limits, key=lambda limit: limit.maximum)
    return f"{lowest.words} ({lowest.cause})"


class Hottest(Frozen):
    """A temperature in °C, how it is stated, what keeps it from being proven, and what cures it."""

    value: Decimal | None
    words: str
    problem: str = ""
    remedy: str = ""
    role: Role | None = None


def _hottest(question: TemperatureQuestion) -> Hottest:
    """The class that holds at the site, or the stated surface where that is hotter.

    Equipment that makes no heat is as hot as its place (NFPA 70-2023 500.8(C)(4) exception 1);
    a cable gland or plug heats nothing either and bears no class.
    """
    marked = _marked(question)
    surface = question.surface
    if surface is not None and (marked.value is None or surface.value > marked.value):
        words = f"surface {number(surface.value)} °C"
        if question.temperatures:
            return Hottest(surface.value, words, marked.problem, marked.remedy)
        return Hottest(surface.value, words, *_surface_problem(question, surface))
    if marked.value is None and question.heat_free and not question.temperatures:
        if question.site is None:
            problem = "The part makes no heat, so it is as hot as its place; that is not stated."
            return Hottest(None, "no heat of its own", problem, _AMBIENT, Role.AREA_OWNER)
        return Hottest(question.site.high, f"no heat of its own, {number(question.site.high)} °C")
    return marked


_AMBIENT = "State the `ambient` of the place, such as 5..40 °C."
_NO_SUCH_CLASS = (
    "The marked class does not exist.",
    "Copy the class from the nameplate into `marking`; the classes are T1 to T6.",
)
_CLASS_OF_GAS = (
    "A temperature class is for gas and says nothing of dust.",
    "Copy the maximum surface temperature in °C from the nameplate into `marking`.",
)
_NOTHING = (
    "Neither a temperature class nor a hottest surface is stated, so there is nothing to compare.",
    "State the class as marked, or `surface_temperature` with at_ambient, case and source",
)
_COLD = ", or `heat_producing: false` where nothing inside makes heat"
_FITTING = " A cable gland or plug, which bears no class, states its `device`."
_OUT_OF_RANGE = (
    "No class on the nameplate is valid over the site's ambient.",
    "State the place's `ambient`, or choose a part whose `marking` has a class that holds over it.",
)


def _marked(question: TemperatureQuestion) -> Hottest:
    """The class as marked; where there is none, what of it and its like would do."""
    if question.temperatures:
        return _mark(question.temperatures, question.ambient_default, question.site)
    problem, remedy = _NOTHING
    cold = _COLD if question.cold_would_do else ""
    if question.called is not None:
        remedy = (
            f"State `device: {question.called.value}`, which bears no class; or state the class"
        )
        return Hottest(None, "no temperature class", problem, f"{remedy} that is marked.")
    fitting = "" if question.device_stated or question.no_fitting else _FITTING
    return Hottest(None, "no temperature class", problem, f"{remedy}{cold}.{fitting}")


def _mark(marks: tuple[TemperatureMark, ...], default: Range | None, site: Range | None) -> Hottest:
    """The coolest class whose ambient holds the whole site range; else the hottest, unproven."""
    known = [(mark, mark.maximum) for mark in marks if mark.maximum is not None]
    if not known:
        exists = any(mark.name in class_limits() for mark in marks)
        why = _CLASS_OF_GAS if exists else _NO_SUCH_CLASS
        return Hottest(None, "no temperature class", *why)
    valid = [pair for pair in known if _holds(pair[0].ambient or default, site)]
    if all(mark.ambient is None for mark, _ in known) or not valid:
        mark, value = max(known, key=lambda pair: pair[1])
        unbound = mark.ambient is None
        return Hottest(value, _name(mark, value), *(("", "") if unbound else _OUT_OF_RANGE))
    mark, value = min(valid, key=lambda pair: pair[1])
    return Hottest(value, _name(mark, value))


def _holds(ambient: Range | None, site: Range | None) -> bool:
    return ambient is None or (site is not None and site.within(ambient))


def _name(mark: TemperatureMark, value: Decimal) -> str:
    figure = f"{number(value)} °C"
    return f"{mark.name} ({figure})" if mark.name else f"T{figure}"


_WORSE = tuple(SurfaceCase)
_NO_AMBIENT = (
    "The ambient that the surface was found at is not stated.",
    "State `surface_temperature: {value: …, at_ambient: …, case: …}`.",
)


def _surface_problem(question: TemperatureQuestion, surface: SurfaceTemperature) -> tuple[str, str]:
    """What the surface was not found at, and what to state instead.

    That is the site's ambient, or the state that counts there.
    """
    site, case = question.site, question.needed_case
    if surface.at_ambient is None:
        return _NO_AMBIENT
    if site is not None and surface.at_ambient < site.high:
        found, reached = number(surface.at_ambient), number(site.high)
        return (
            f"The surface was found at {found} °C ambient; the place reaches {reached} °C.",
            f"State the surface as found at {reached} °C ambient.",
        )
    found_in = surface.case or SurfaceCase.NORMAL  # a figure of no named state is of the mildest
    if case is None or _WORSE.index(found_in) >= _WORSE.index(case):
        return "", ""
    how = f"in the state `{found_in.value}`" if surface.case else "in no named state"
    problem = (
        f"The surface was found {how}; here the state `{case.value}` counts (EN 1127-1:2019 6.4.2)."
    )
    return problem, f"State the surface as found in the state `{case.value}`, with its `case`."


TEMPERATURE_CLASS = Rule[TemperatureQuestion](
    id="temperature-class",
    title="Hottest surface stays below what ignites",
    family=Family.AREA,
    subject=Subject.NAMEPLATE,
    clause="NFPA 70-2023 500.8(C)(4), 500.8(D); IEC 60079-14:2013 5.6; IEC 60079-0:2017 Table 2",
    why="A surface hotter than the autoignition temperature ignites without any spark; on dust "
    "a layer insulates the part and smoulders well below the cloud's temperature.",
    remedy="Choose a part whose `marking` shows a lower temperature class.",
    answer_by=Role.SUPPLIER,
    note="Where two published lists differ, the lower figure decides and both are shown. A class "
    "equal to the autoignition temperature fails under IEC and ATEX; NFPA 70 says `not exceed`, "
    "so there it is unproven. The 165 °C cap on organic dust is NFPA's; two thirds of the cloud "
    "and the layer less 75 K are IEC's. A cable gland, plug, adapter or conduit seal bears no "
    "class and makes no heat: it counts as hot as its place.",
    ask=_ask,
    judge=judge_temperature,
    examples=(
        Example(
            "T2D below the 225 °C of hexane",
            Verdict.PASS,
            "{kind: electrical, marking: 'Class I, Division 1, Groups C, D T2D'}",
            "{area: 'Class I, Division 1, Group D', substances: [n-hexane]}",
            "NEC",
        ),
        Example(
            "T3 on flour that may carbonise",
            Verdict.FLAG,
            "{kind: electrical, marking: 'Class II, Division 1, Groups E, F, G T3'}",
            "{area: 'Class II, Division 1, Group G', substances: [wheat flour]}",
            "NEC",
        ),
        Example(
            "Neither class nor surface",
            Verdict.UNPROVEN,
            "{kind: electrical, marking: Ex db IIB Gb}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
        Example(
            "A cable gland, which bears no class",
            Verdict.PASS,
            "{kind: electrical, device: cable gland, marking: Ex eb IIC Gb}",
            "{area: 'Zone 1, IIB, T3', substances: [ethanol], ambient: 5..40 °C}",
        ),
        Example(
            "T1 where propane ignites at the class limit",
            Verdict.FLAG,
            "{kind: electrical, marking: Ex db IIA T1 Gb}",
            "{area: Zone 1, substances: [propane]}",
        ),
    ),
)

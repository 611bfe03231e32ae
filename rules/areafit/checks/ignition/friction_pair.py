"""Light metal against rust, titanium against anything hard: pairs that light at any energy."""

from areafit.checks.ignition.cite import counterface_row
from areafit.checks.ignition.content import Content, content_of
from areafit.facts.part import MaterialUse
from areafit.facts.quantity import Dimension
from areafit.rule import Judgement, Row, flagged, passed, unproven
from areafit.tables import Tables
from areafit.tables.figures import Figure, figure
from areafit.tables.ignition import Rust, counterface
from areafit.values import Frozen, Term
from areafit.verdict import Reason

CLAUSE = "EN 1127-1:2019 (friction and impact); ISO 80079-36:2016 6.4"


class Light(Term):
    """Whether a material is a light metal for this purpose."""

    YES = "light metal"
    SPARKS = "titanium or zirconium"
    NO = "no light metal"
    UNKNOWN = "not known"


class Face(Frozen):
    """One half of a pair; `rust` and `hard` are None where the material is not known."""

    name: str
    light: Light
    rust: Rust | None
    hard: bool | None
    rows: tuple[Row, ...]


class PairQuestion(Frozen):
    """What a material rubs or may strike; `other` is None where it is not stated."""

    own: Face
    other: Face | None
    touches_nothing: bool = False


def face_of(use: MaterialUse, tables: Tables) -> Face:
    """A material of the part as one half of a pair."""
    return _face(use.material, content_of(use, use.material, tables), tables)


def other_face(name: str, tables: Tables) -> Face:
    """The material that it meets, given by name; a word such as `rusty steel` tells as well."""
    content = content_of(MaterialUse(name), name, tables)
    face = _face(name, content, tables)
    if "rust" in name.casefold() and not tables.materials(name):
        return Face(name, Light.NO, Rust.YES, hard=True, rows=())
    return face


def _face(name: str, content: Content, tables: Tables) -> Face:
    found = [counterface(grade.family) for grade in tables.materials(name)]
    known = [each for each in found if each is not None]
    if not known or len(known) < len(found):
        return Face(name, light(content), None, None, content.rows)
    order = list(Rust)
    rust = min((each.rusts for each in known), key=order.index)
    rows = (*content.rows, *dict.fromkeys(counterface_row(each) for each in known))
    return Face(name, light(content), rust, any(each.hard for each in known), rows)


def light(content: Content) -> Light:
    """Whether the content makes a material a light metal; unknown where it may."""
    limit = _limit().amount(Dimension.FRACTION)
    if content.sparks.least > limit:
        return Light.SPARKS
    if content.total.least > limit:
        return Light.YES
    return Light.UNKNOWN if content.total.most > limit else Light.NO


def _limit() -> Figure:
    return figure("light metal against rust")


def judge_pair(question: PairQuestion) -> Judgement:
    """Either half may be the light one."""
    own, other = question.own, question.other
    required = "no light metal that rubs or strikes rust, no titanium on anything hard"
    if question.touches_nothing:
        return passed(
            f"{own.name} rubs and strikes nothing.", required=required, found="counterface none"
        )
    if other is None:
        return unproven(
            Reason.FACT_MISSING,
            f"What {own.name} rubs or may strike is not stated.",
            required=required,
            found=f"{own.name} ({own.light.value}), counterface not stated",
            clause=CLAUSE,
            remedy="State `counterface` with the material that it meets, or `none`.",
        )
    found = f"{own.name} ({own.light.value}) against {other.name} ({other.light.value})"
    rows = tuple(dict.fromkeys((*own.rows, *other.rows)))
    answers = (_one_way(own, other), _one_way(other, own))
    if True in answers:
        return flagged(
            "A light metal that rubs or strikes rust makes sparks that light at any energy; "
            "titanium and zirconium do so on any hard body.",
            required=required,
            found=found,
            clause=CLAUSE,
            rows=(*rows, Row.of_figure(_limit())),
            remedy="Choose stainless steel or bronze for one of the two, or keep them apart.",
        )
    if None in answers:
        return unproven(
            Reason.NO_DATA,
            "Whether one of the two is a light metal and the other may rust is not known.",
            required=required,
            found=found,
            clause=CLAUSE,
            rows=rows,
            remedy="Name the grades of both by known names, or keep the two apart.",
        )
    return passed(
        "No light metal meets rust.", required=required, found=found, clause=CLAUSE, rows=rows
    )


def _one_way(metal: Face, body: Face) -> bool | None:
    """Whether `metal` on `body` lights; None where it cannot be told."""
    if metal.light is Light.NO or body.hard is False:
        return False
    if metal.light is Light.UNKNOWN or body.rust is None:
        return None
    if metal.light is Light.SPARKS or body.rust is Rust.YES:
        return True
    return None if body.rust is Rust.POSSIBLE else False

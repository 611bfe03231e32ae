"""What a place says of itself, and whether its declared area fits what is present."""

from collections.abc import Iterator
from decimal import Decimal

from areafit.demands import Demands, HazardDemand, Limit, ResolvedSubstance, whence
from areafit.facts.groups import Cover, Group, GroupScheme, covers
from areafit.facts.place import Area, AreaReading, AreaSystem
from areafit.facts.protection import Hazard, Law, Level
from areafit.facts.quantity import number
from areafit.rule import Answer, Ask, Example, Family, Judgement, Row, Rule, Subject, of_a_pass
from areafit.subjects import PlaceCase
from areafit.tables.words import is_placeholder
from areafit.values import Frozen, replace
from areafit.verdict import Reason, Role, Verdict
from areafit.wording import capital


class FactOfPlace(Frozen):
    """One fact of the place, and whether it is stated; `unread`: what is stated says nothing."""

    fact: str
    stated: bool
    unread: bool = False


class HowLong(Frozen):
    """A Division 1 for gas or dust, and the level that the place states for it."""

    hazard: Hazard
    place: str
    level: Level | None


_REMEDY = {
    "area": "Copy it word for word from the area classification document, or write `unclassified` "
    "if that says so.",
    "substances": "List the gases, vapours and dusts of the area classification document, or write "
    "`none`.",
    "chemicals": "List what corrodes here from the process description, or write `none`; "
    "substances of the place count by themselves.",
    "ambient": "State the air temperature of the place, such as 5..40 °C.",
    "layer": "State the depth of dust to be expected, such as 5 mm, or write `none`.",
    "Ga": "State `required_epl: Ga` where gas or vapour is there continuously or for long, else "
    "`required_epl: Gb`.",
    "Da": "State `required_epl: Da` where a cloud of dust is there continuously or for long, else "
    "`required_epl: Db`; a list where gas states one too.",
}
_WHY = {
    "area": "what must be proven of every part",
    "substances": "what can burn here",
    "chemicals": "what corrodes",
    "ambient": "the temperature range that every part must be certified for",
    "layer": "the surface temperature that dust allows",
}
_LONG = {Hazard.GAS: "Ga", Hazard.DUST: "Da"}
_ANSWER_BY = {"chemicals": Role.PROCESS_OWNER, "unread": Role.DESIGNER}


def _ask_stated(case: PlaceCase, demands: Demands) -> Iterator[Ask[FactOfPlace | HowLong]]:
    place = demands.place
    read = place.area is not None and bool(place.area.areas)
    yield Ask(FactOfPlace("area", read, unread=place.area is not None and not read), "area")
    if read:
        yield Ask(FactOfPlace("substances", place.substances is not None), "substances")
    yield Ask(FactOfPlace("chemicals", place.chemicals is not None), "chemicals")
    yield Ask(FactOfPlace("ambient", place.ambient is not None), "ambient")
    if demands.hazard(Hazard.DUST) is not None:
        yield Ask(FactOfPlace("layer", place.layer is not None), "layer")
    first = [area for demand in demands.hazards for area in demand.areas if area.division == 1]
    for hazard in _LONG:  # fibres of Class III are not in the air by its definition
        own = next((area for area in first if area.hazard is hazard), None)
        if own is not None:
            yield Ask(HowLong(hazard, own.name, place.level_asked(hazard)), "required_epl")
    del case


def _judge_stated(question: FactOfPlace | HowLong) -> Judgement:
    if isinstance(question, HowLong):
        return _judge_how_long(question)
    fact, unread = question.fact, question.unread
    answer = Answer(
        required=f"`{fact}` stated, or `none`" if fact not in ("area", "ambient") else f"`{fact}`",
        found="stated" if question.stated else "not read" if unread else "not stated",
    )
    if question.stated:
        return answer.passed(f"`{fact}` is stated.")
    lacks = "could not be read (see the declared area)" if unread else "is not stated"
    return answer.unproven(
        Reason.FACT_MISSING,
        f"`{fact}` {lacks}: {_WHY[fact]} is not known.",
        remedy=_REMEDY[fact],
        answer_by=_ANSWER_BY.get("unread" if unread else fact),
    )


def _judge_how_long(question: HowLong) -> Judgement:
    """Division 1 takes in what zones call 0 and 1; level c is no answer to which it is."""
    level, best = question.level, _LONG[question.hazard]
    answer = Answer(
        required=f"`required_epl`: {best}, or {best[0]}b",
        found="not stated" if level is None else level.value,
        clause="NFPA 70-2023 500.5, 505.5, 506.5",
    )
    if level is not None and level.rank < _THIRD:
        return answer.passed(
            f"What is not electrical is judged at level {level.value[1]}; electrical equipment by "
            "Articles 501 to 503."
        )
    return answer.unproven(
        Reason.FACT_MISSING,
        f"A {question.place} may hold the atmosphere continuously or only at times; which, is not "
        "stated. What is not electrical is judged at level b meanwhile.",
        remedy=_REMEDY[best],
    )


_THIRD = 2  # the rank of level c


PLACE_STATED = Rule[FactOfPlace | HowLong](
    id="place-stated",
    title="Place states what is present",
    family=Family.PLACES,
    subject=Subject.PLACE,
    clause="NFPA 70-2023 500.4, 505.4, 506.4; 29 CFR 1910.307(b); IEC 60079-14:2013 4.2",
    why="What is not stated is not absent: a list that says nothing of dust layers or chemicals "
    "has not said that there are none.",
    remedy="State it from the area classification document or the process description; write "
    "`none` only where that is known.",
    answer_by=Role.AREA_OWNER,
    note="NFPA 70 has one Division 1 where zones have two: the level stated for it holds in every "
    "rule of what is not electrical. A Class III is asked nothing: its fibres are not in the air "
    "in such amounts (500.5(D)).",
    ask=_ask_stated,
    judge=_judge_stated,
    examples=(
        Example(
            "Everything stated",
            Verdict.PASS,
            place="{area: 'Zone 2, IIA, T3', substances: [acetone], chemicals: none, "
            "ambient: 5..40 °C}",
        ),
        Example(
            "Silence about the substances",
            Verdict.UNPROVEN,
            place="{area: 'Zone 2, IIA, T3', chemicals: none, ambient: 5..40 °C}",
        ),
        Example(
            "The same of a place that is not classified",
            Verdict.UNPROVEN,
            place="{area: unclassified, chemicals: none, ambient: 5..40 °C}",
        ),
        Example(
            "A Division 1, and not how long the vapour is there",
            Verdict.UNPROVEN,
            place="{area: 'Class I, Division 1, Group D', substances: [acetone], chemicals: none, "
            "ambient: 5..40 °C}",
            law="NEC",
        ),
    ),
)


class AreaDeclared(Frozen):
    """The declared text as decoded, the law that governs, and the document it was taken from.

    `unexplained` are hazards that the area declares while the place says what is present and
    names nothing that forms them.
    """

    area: AreaReading
    law: Law
    document: str | None
    unexplained: tuple[Hazard, ...] = ()


class HazardDeclared(Frozen):
    """A substance that forms a hazard which the area does not declare.

    `mixed` says that it is a liquid of which no more is known than that a part of it burns.
    """

    substance: str
    hazard: Hazard
    from_chemical: bool
    mixed: bool = False


class GroupDeclared(Frozen):
    """A substance's group against the declared ones of the same system.

    `density` is that of the vapour relative to air; `second_division` says that the area is a
    Class II, Division 2, which metal dust never is; `hydrogen` that IIB+H2 names the substance.
    `milder` is what somebody stated instead of the row's group.
    """

    substance: str
    needed: Group
    declared: frozenset[Group]
    rows: tuple[Row, ...]
    density: Decimal | None = None
    second_division: bool = False
    hydrogen: bool = False
    milder: tuple[Group, Row] | None = None


class ClassDeclared(Frozen):
    """A limit that a substance sets against the declared class or maximum, in °C."""

    limit: Limit
    declared: Decimal


DeclaredQuestion = AreaDeclared | HazardDeclared | GroupDeclared | ClassDeclared


def _ask_declared(case: PlaceCase, demands: Demands) -> Iterator[Ask[DeclaredQuestion]]:
    """Of the text itself, then once per known substance, and per declared temperature and limit."""
    del case
    place = demands.place
    if place.area is None:
        return
    yield Ask(AreaDeclared(place.area, place.law, place.document, _unexplained(demands)), "area")
    mixed = dict.fromkeys(one.mixture for one in demands.substances if one.mixture is not None)
    for substance in demands.substances:
        if substance.known:
            if substance.mixture is None or mixed.pop(substance.mixture, "told") is None:
                yield from _hazards(substance, demands)
            for demand in demands.hazards:
                if demand.hazard in substance.hazards:
                    yield from _groups(substance, demand)
    for demand in demands.hazards:
        yield from _classes(demand)


def _unexplained(demands: Demands) -> tuple[Hazard, ...]:
    """Declared hazards that nothing listed forms; fibres are dust to the tables."""
    if demands.place.substances is None:
        return ()
    present = {hazard for one in demands.substances for hazard in one.hazards}
    if demands.evolved:
        present.add(Hazard.GAS)
    if Hazard.DUST in present:
        present.add(Hazard.FIBRES)
    return tuple(one.hazard for one in demands.hazards if one.hazard not in present)


def _hazards(substance: ResolvedSubstance, demands: Demands) -> Iterator[Ask[DeclaredQuestion]]:
    area = demands.place.area
    if area is None or not area.areas:
        return
    hazards = substance.hazards
    flyings = substance.group(GroupScheme.ZONE_DUST)
    declared = any(demands.hazard(hazard) is not None for hazard in hazards)
    fibres = flyings is not None and flyings[0] is Group.IIIA
    if declared or (fibres and demands.hazard(Hazard.FIBRES) is not None):
        return
    if substance.mixture is not None:
        mixed = HazardDeclared(substance.mixture.name, Hazard.GAS, from_chemical=False, mixed=True)
        yield Ask(mixed, substance.path)
        return
    hazard = Hazard.GAS if Hazard.GAS in hazards else Hazard.DUST
    yield Ask(HazardDeclared(substance.name, hazard, substance.from_chemical), substance.path)


_SCHEME = {
    (Hazard.GAS, AreaSystem.DIVISION): GroupScheme.DIVISION_GAS,
    (Hazard.GAS, AreaSystem.ZONE): GroupScheme.ZONE_GAS,
    (Hazard.DUST, AreaSystem.DIVISION): GroupScheme.DIVISION_DUST,
    (Hazard.DUST, AreaSystem.ZONE): GroupScheme.ZONE_DUST,
}


def _groups(substance: ResolvedSubstance, demand: HazardDemand) -> Iterator[Ask[DeclaredQuestion]]:
    for area in demand.areas:
        found = substance.group(_SCHEME[demand.hazard, area.system])
        second = area.hazard_class == "II" and area.division == 2
        if found is None or not (area.groups or second):
            continue
        density = substance.gas.vapour_density if substance.gas is not None else None
        question = GroupDeclared(
            substance.name,
            found[0],
            area.groups,
            found[1],
            density.value if density is not None else None,
            second,
            hydrogen=substance.gas is not None and substance.gas.id == "hydrogen",
            milder=substance.milder_group(_SCHEME[demand.hazard, area.system]),
        )
        yield Ask(question, "area")


def _classes(demand: HazardDemand) -> Iterator[Ask[DeclaredQuestion]]:
    """Each limit against what is declared.

    Of a figure that is milder than its row the limit of the row is asked, or where not even the
    milder one holds that one alone: it refuses, and beside it the other says nothing more.
    """
    stated = [area.maximum for area in demand.areas if area.maximum is not None]
    limits = [limit for limit in demand.limits if not (limit.declared or limit.overload)]
    beside = [False, *(limit.milder is not None for limit in limits)]
    for limit, instead in zip(limits, beside, strict=False):
        for declared in dict.fromkeys(stated):
            own = limit.maximum if instead else limit.milder and limit.milder[0]
            if own is None or instead is _refuses(limit, own, declared):
                yield Ask(ClassDeclared(limit, declared), "area")


def _refuses(limit: Limit, highest: Decimal, declared: Decimal) -> bool:
    tied = not (limit.inclusive or limit.no_margin_at_limit)
    return declared > highest or (declared == highest and tied)


def _judge_declared(question: DeclaredQuestion) -> Judgement:
    """The declaration must be readable, and as onerous as what is present."""
    match question:
        case AreaDeclared():
            return _judge_area(question)
        case HazardDeclared():
            return _judge_hazard(question)
        case GroupDeclared():
            return _judge_group(question)
        case _:
            return _judge_class(question)


def _judge_area(question: AreaDeclared) -> Judgement:
    """What is wrong with the declaration comes first, then what is missing."""
    reading, law = question.area, question.law
    answer = Answer(
        required="an area that the governing rules know, taken from a named document",
        found=reading.text,
    )
    if reading.problems:
        return _unread(reading, answer)
    if law is not Law.NEC and any(area.system is AreaSystem.DIVISION for area in reading.areas):
        return answer.flagged(f"{law.value} knows no Divisions; the area is declared as one.")
    mixed = _mixed(reading.areas)
    if mixed is not None:
        return Answer(
            required="one system for one place",
            found=reading.text,
            clause="29 CFR 1910.307(a)(4); NFPA 70-2023 505.7(B), (C)",
        ).flagged(
            f"The place is declared as Division and as Zone for the same {mixed.value} hazard; one "
            "installation uses one of the two systems."
        )
    if question.unexplained:
        return _contradiction(question)
    if question.document is None or is_placeholder(question.document):
        return answer.unproven(
            Reason.FACT_MISSING,
            "The area classification that this was taken from is not named.",
            remedy="State the `document` and its revision; an unclassified place needs one too.",
        )
    return replace(answer, found=f"{reading.text} ({question.document})").passed(
        f"The area is taken from a named document.{_notes(question)}"
    )


def _unread(reading: AreaReading, answer: Answer) -> Judgement:
    message = " ".join((f"The area is stated as '{reading.text}'.", *reading.problems))
    if reading.contradictory:
        return answer.flagged(message)
    return answer.unproven(
        Reason.NOT_JUDGED,
        message,
        remedy="Write the area as in `Zone 1, IIB, T3`, `Class I, Division 2, Group D`, or "
        "`unclassified`; where the document itself does not say so, ask its owner.",
        answer_by=Role.DESIGNER,
    )


def _contradiction(question: AreaDeclared) -> Judgement:
    hazards = " and ".join(hazard.value for hazard in question.unexplained)
    return Answer(
        required="every substance that the area is classified for, from its neighbours too",
        found=f"{question.area.text}; no {hazards} listed",
        clause="IEC 60079-10-1:2020; IEC 60079-14:2013 4.2; NFPA 70-2023 500.4, 505.4, 506.4",
    ).unproven(
        Reason.FACT_MISSING,
        f"The area is declared for a {hazards} hazard, and nothing listed as present forms one. "
        "Either the list of substances is not complete or the declaration is out of date. What "
        "the hazard asks for beyond the declared group and temperature is not known.",
        remedy="List the `substances` that the area classification names, or have the "
        "classification withdrawn by its owner.",
    )


def _mixed(areas: tuple[Area, ...]) -> Hazard | None:
    """The hazard that is declared in both systems; fibres are the dust of the other system."""
    for hazard in (Hazard.GAS, Hazard.DUST):
        kinds = (hazard, Hazard.FIBRES) if hazard is Hazard.DUST else (hazard,)
        systems = {area.system for area in areas if area.hazard in kinds}
        if len(systems) > 1:
            return hazard
    return None


def _notes(question: AreaDeclared) -> str:
    areas = question.area.areas
    hazards = {area.hazard for area in areas if area.classified}
    notes = ""
    if Hazard.GAS in hazards and len(hazards) > 1:
        notes += (
            " Gas and dust together may form a hybrid mixture, which the limits of either alone "
            "do not cover; ask a specialist if both occur at once."
        )
    zones = any(area.system is AreaSystem.ZONE for area in areas)
    if question.law is Law.NEC and zones:
        notes += (
            " Zone classification in the United States is done under a qualified registered "
            "professional engineer (29 CFR 1910.307(g), NFPA 70-2023 505.7(A))."
        )
        if any(Group.IIIC in area.groups for area in areas):
            notes += " NFPA guidance handles metal dust as Class II, Group E instead."
    return notes


def _judge_hazard(question: HazardDeclared) -> Judgement:
    name, hazard = question.substance, question.hazard.value
    found = f"no {hazard} hazard declared"
    if question.from_chemical:
        return Answer(required="an area classification that accounts for it", found=found).unproven(
            Reason.CONDITION_TO_ACCEPT,
            f"{name} is listed as a chemical and burns; the area declares no {hazard} hazard.",
        )
    if question.mixed:
        return Answer(required="an area classification that accounts for it", found=found).unproven(
            Reason.CONDITION_TO_ACCEPT,
            f"{name} holds what burns; the area declares no {hazard} hazard. Whether it gives off "
            "enough is for its flash point to say.",
            remedy="Have the owner of the area confirm in writing that its classification accounts "
            "for this liquid at its highest temperature, and accept this finding with that; or "
            "correct the `area`.",
        )
    required = f"a {hazard} hazard declared, or the substance not present"
    return Answer(required, found).flagged(
        f"{name} is listed as present; the area declares no {hazard} hazard."
    )


def _judge_group(question: GroupDeclared) -> Judgement:
    name, needed, rows = question.substance, question.needed, question.rows
    found = ", ".join(sorted(group.value for group in question.declared)) or "no group"
    if needed is Group.E and question.second_division:
        return Answer(
            required="Class II, Division 1, Group E",
            found=f"Class II, Division 2, {found}",
            rows=rows,
            clause="NFPA 70-2023 500.5(C)",
        ).flagged(
            f"{name} is a metal dust, Group E: in hazardous amounts it makes a Division 1, also "
            "in abnormal operation. A Division 2 for it does not exist."
        )
    answer = Answer(f"{needed.value} ({name})", found, rows)
    hydrogen = question.hydrogen and Group.IIB_H2 in question.declared
    where = _where(question.density)
    if question.declared and not hydrogen and covers(question.declared, needed) is Cover.NO:
        stated = question.milder
        if stated is not None and covers(question.declared, stated[0]) is not Cover.NO:
            open_ = replace(answer, rows=(*rows, stated[1])).unproven(
                Reason.CONDITION_TO_ACCEPT,
                f"{name} is {needed.value} by its row; the area is declared for {found}, which "
                f"meets nothing but the milder {stated[0].value} {whence(stated[1])}.",
            )
            return replace(open_, document_to_waive=True)
        return answer.flagged(
            f"{name} asks for {needed.value}; the area is declared for {found}.{where}"
        )
    return answer.passed(f"{capital(found)} holds {name}.{where}")


def _where(density: Decimal | None) -> str:
    if density is None or density == 1:
        return ""
    if density > 1:
        return (
            f" Its vapour is heavier than air ({number(density)}): pits, trenches and low points "
            "are worse places."
        )
    return (
        f" It is lighter than air ({number(density)}): roofs, hoods and canopies are worse places."
    )


def _judge_class(question: ClassDeclared) -> Judgement:
    limit, declared = question.limit, question.declared
    answer = Answer(
        required=f"{limit.words} ({limit.cause})",
        found=f"{number(declared)} °C declared",
        rows=limit.rows,
    )
    if limit.keeps(declared):
        answer = replace(answer, rows=of_a_pass(limit.rows))
        return answer.passed(f"The declared {number(declared)} °C is low enough: {limit.cause}.")
    if limit.milder is not None:
        stated, row = limit.milder
        open_ = replace(answer, rows=(*limit.rows, row)).unproven(
            Reason.CONDITION_TO_ACCEPT,
            f"The declared {number(declared)} °C is too hot: {limit.cause}. It is below nothing "
            f"but the milder {number(stated)} °C {whence(row)}, which decides nothing.",
        )
        return replace(open_, document_to_waive=True)
    if limit.uncertain or (declared == limit.maximum and limit.no_margin_at_limit):
        return answer.unproven(
            Reason.NO_MARGIN if declared == limit.maximum else Reason.CONDITION_TO_ACCEPT,
            f"The declared {number(declared)} °C leaves no margin, or holds only if something "
            f"unproven does: {limit.cause}.",
        )
    return replace(answer, clause=limit.clause).flagged(
        f"The declared {number(declared)} °C is too hot: {limit.cause}."
    )


DECLARED_AREA = Rule[DeclaredQuestion](
    id="declared-area",
    title="Declared area fits what is present",
    family=Family.PLACES,
    subject=Subject.PLACE,
    clause="NFPA 70-2023 500.4 to 500.6, 505.4 to 505.6; IEC 60079-10-1:2020; "
    "ISO/IEC 80079-20-1:2017",
    why="A part that suits a wrongly declared area is not safe; the declaration is checked "
    "against the substances once, here, instead of on every line.",
    remedy="Have the area classification corrected by its owner and copy the `area` anew, or "
    "correct the list of what is present.",
    answer_by=Role.AREA_OWNER,
    note="Only the system in which the area is declared counts: ethanol is Group D and IIB. A "
    "Zone 2 may abut a Division 2, never overlap it; Zone 0 and 1 may not abut a Division.",
    ask=_ask_declared,
    judge=_judge_declared,
    examples=(
        Example(
            "Ethanol is Group D",
            Verdict.PASS,
            place="{area: 'Class I, Division 1, Group D', substances: [ethanol], document: AC-1}",
            law="NEC",
        ),
        Example(
            "Ethanol is IIB",
            Verdict.FLAG,
            place="{area: 'Zone 1, IIA, T2', substances: [ethanol], document: AC-1}",
        ),
        Example(
            "Aluminium dust in a Division 2",
            Verdict.FLAG,
            place="{area: 'Class II, Division 2, Group G', substances: [aluminium dust], "
            "document: AC-1}",
            law="NEC",
        ),
        Example(
            "Division and Zone for one room",
            Verdict.FLAG,
            place="{area: ['Class I, Division 2, Group D', 'Class I, Zone 2, IIA'], "
            "document: AC-1}",
            law="NEC",
        ),
        Example(
            "Classified for nothing",
            Verdict.UNPROVEN,
            place="{area: 'Zone 1, IIB, T3', substances: none, document: AC-1}",
        ),
        Example(
            "No document",
            Verdict.UNPROVEN,
            place="{area: 'Zone 1, IIB, T2', substances: [ethanol]}",
        ),
    ),
)

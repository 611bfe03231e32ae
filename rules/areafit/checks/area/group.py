"""Do the marked groups, or gases, cover what the place asks for: gas and dust.

Division letters and Zone groups do not convert, so each is held to the demand in its own scheme.
"""

from collections.abc import Callable, Iterator
from decimal import Decimal
from functools import lru_cache

from areafit.checks.area.general_purpose import general_use
from areafit.checks.area.ingress import read_rating
from areafit.checks.area.nameplate import Candidate, ChosenCodes, Missing, is_intrinsically_safe
from areafit.demands import Demands, GroupDemand, GroupNeed, unaccepted
from areafit.facts.fittings import ConduitSeals, EntryType
from areafit.facts.groups import Cover, Group, GroupScheme, covers, scheme_of, severity
from areafit.facts.marking import Code
from areafit.facts.part import Equipment
from areafit.facts.protection import MarkingSystem
from areafit.facts.quantity import Dimension, number
from areafit.marking.level import find_type, is_old_mechanical
from areafit.rule import Answer, Ask, Example, Family, Judgement, Row, Rule, Subject
from areafit.tables.limits import Figure, figure
from areafit.values import Frozen, replace
from areafit.verdict import Basis, Reason, Role, Verdict


class GroupQuestion(Frozen):
    """Do these marked groups, or gases, cover what the place asks for in their own scheme?

    `dust_tight`: an old dust code of practice A that prints the rating which dusts that do not
    conduct ask for, IP6X, in Zone 22 IP5X; its form knew no groups. `undivided`: letters of EN
    13463, of which none divides its gases or dusts.
    """

    groups: frozenset[Group]
    gases: tuple[str, ...]
    protection: tuple[str, ...]
    marked: bool
    missing: Missing | None
    demand: GroupDemand | None
    extra_gases: tuple[str, ...] = ()
    purged: bool = False
    general: bool = False
    explosionproof: bool = False
    seals: ConduitSeals | None = None
    dust_tight: bool = False
    undivided: bool = False

    @property
    def needs(self) -> tuple[GroupNeed, ...]:
        """What must be covered, each with its cause."""
        return self.demand.needs if self.demand is not None else ()

    @classmethod
    @lru_cache(maxsize=64)  # what papers answer asks it of the same nameplate
    def of(cls, choice: Candidate) -> "GroupQuestion":
        """The facts of a part with the demands of its place."""
        equipment, demands, hazard = choice.equipment, choice.demands, choice.hazard
        code, missing = choice.code, choice.missing
        if code is None:
            return cls(
                frozenset(),
                (),
                (),
                marked=False,
                missing=missing,
                demand=hazard.group_demand(hazard.home),
                general=general_use(equipment, demands, missing) is not None,
            )
        division = code.system is MarkingSystem.NEC_DIVISION
        demand = hazard.group_demand(scheme_of(hazard.hazard, division=division))
        return cls(
            code.groups,
            tuple(_gas_id(demands, name) for name in code.gases),
            code.protection,
            marked=True,
            missing=None,
            demand=demand,
            extra_gases=tuple(_gas_id(demands, name) for name in code.extra_gases),
            purged=code.purge is not None,
            explosionproof=division and not is_intrinsically_safe(code),
            seals=_seals_of(equipment, demand) if division else None,
            dust_tight=_dust_tight(code),
            undivided=_undivided(code),
        )


def _seals_of(equipment: Equipment, demand: GroupDemand | None) -> ConduitSeals | None:
    """What is stated of all conduit seals, or what a list of the openings tells of them.

    The list tells it where nothing but sealed conduits and plugs fills them; it is read for a
    substance alone that the exceptions of 500.6(A) speak of.
    """
    stated, entries = equipment.conduit_seals, equipment.entries
    if stated is not None or not entries or demand is None:
        return stated
    seals = [one.within for one in entries if one.type is EntryType.CONDUIT_SEAL]
    plugs = sum(one.type is EntryType.PLUG for one in entries)
    distances = [within for within in seals if within is not None]
    told = bool(seals) and len(distances) + plugs == len(entries)
    if not told or all(need.with_seals is None for need in demand.needs):
        return None
    return ConduitSeals(within=max(distances), all_runs=True)


def _dust_tight(code: Code) -> bool:
    """Practice A with IP6X on the plate kept out every dust of Zone 21 (IEC 61241-1:2004).

    Of a plate for Zone 22 dusts that do not conduct asked for IP5X (IEC 61241-14:2004).
    """
    practice = code.practice or ""
    if not (practice.startswith("A") and "tD" in code.protection and code.ingress):
        return False
    rating, least = read_rating(code.ingress), 5 if practice == "A22" else 6
    kept_out = all(ip.first is not None and ip.first >= least for ip in rating.ips)
    return bool(rating.ips) and kept_out and not rating.unread


def _undivided(code: Code) -> bool:
    """Whether a plate of EN 13463 stands for all of Group II, or of dust, without saying so.

    It bears IIA, IIB or IIC only where its type of protection is divided (EN 13463-1:2009 14).
    """
    if not is_old_mechanical(code) or code.groups or code.gases or code.extra_gases:
        return False
    types = [find_type(letter, non_electrical=True) for letter in code.protection]
    plain = all(kind is not None and not kind.gas_group_letter for kind in types)
    return bool(types) and plain and code.equipment_group != "I"


def _gas_id(demands: Demands, name: str) -> str:
    known = demands.tables.substance(name)
    return known.id if known is not None else name


def _ask(*schemes: GroupScheme) -> Callable[[ChosenCodes, Demands], Iterator[Ask[GroupQuestion]]]:
    """Asks about groups where the place's are of one of these schemes.

    There is nothing to ask of what bears nothing for the hazard, or protects outgoing circuits
    only: `protection-level` flags it.
    """

    def ask(plate: ChosenCodes, _: Demands) -> Iterator[Ask[GroupQuestion]]:
        for choice in plate.asked:
            question = GroupQuestion.of(choice)
            known = question.demand is not None and question.demand.scheme in schemes
            if known and (question.general or choice.missing not in _FLAGGED):
                yield Ask(question, choice.path)

    return ask


_FLAGGED = (Missing.OTHER_HAZARD, Missing.OTHER_SIDE, Missing.UNMARKED, Missing.ASSOCIATED)


def judge_group(question: GroupQuestion) -> Judgement:
    """Every need is answered; then the gaps of the place keep the rest unproven."""
    demand = question.demand
    if demand is None:
        return Answer().passed("This hazard knows no groups.")
    needs = demand.needs
    required = "; ".join(dict.fromkeys(f"{n.group.value} ({n.cause})" for n in needs))
    rows = tuple(dict.fromkeys(row for need in needs for row in need.rows))
    answer = Answer(required or "not known", _marked(question), rows)
    if question.general:
        return replace(answer, found="no marking").passed(
            "The allowance for this unmarked device is not limited to groups."
        )
    if question.purged and not question.groups:
        return replace(answer, found="pressurized", clause="NFPA 496-2021 3.3").passed(
            "Pressurization keeps every group out; its types are not divided by group."
        )
    if not question.marked:
        return _unmarked(question, replace(answer, found="none"))
    if any(_letter_with_seals(question, need, needs) for need in needs):
        answer = replace(answer, rows=(*rows, Row.of_figure(_seals())))
    return _covered(question, demand, answer)


def _unmarked(question: GroupQuestion, answer: Answer) -> Judgement:
    missing = question.missing or Missing.NO_MARKING
    if missing in _FLAGGED:
        needs = demand.needs if (demand := question.demand) is not None else ()
        return answer.flagged(
            f"No group is marked for it: {missing.value}.", remedy=_for_groups(needs)
        )
    return answer.unproven(
        Reason.FACT_MISSING, f"No group is shown: {missing.value}.", remedy=missing.remedy
    )


def _covered(question: GroupQuestion, demand: GroupDemand, answer: Answer) -> Judgement:
    open_need: GroupNeed | None = None
    for need in demand.needs:
        match _answer(question, need, demand.needs):
            case Cover.NO if not (need.uncertain or _by_milder(question, need)):
                return answer.flagged(
                    f"Marked for {answer.found}; {need.group.value} is needed ({need.cause}).",
                    remedy=_for_groups(demand.needs),
                )
            case Cover.NO | Cover.UNPROVEN:
                open_need = open_need or need
    if open_need is not None and open_need.milder is not None:
        stated, row = open_need.milder
        if _answer(question, open_need, demand.needs) is Cover.NO:
            by_row = f"{open_need.cause} is {open_need.group.value}"
            return unaccepted(answer.found, stated.value, row, by_row, answer)
    if open_need is not None:
        return _open(question, open_need, answer)
    if demand.gaps:
        return demand.gaps[0].leaves(answer)
    if _every(question.groups, demand.scheme):
        # Whatever group a guess gives is covered, so that the pass does not rest on it.
        rows = tuple(row for row in answer.rows if row.basis is not Basis.JUDGEMENT)
        answer = replace(answer, rows=rows)
    if question.undivided:
        answer = replace(answer, clause="EN 13463-1:2009 14")
        return answer.passed("Letters of EN 13463 without a group stand for all groups.")
    return answer.passed(f"{answer.found} covers what is needed.")


def _for_groups(needs: tuple[GroupNeed, ...]) -> str:
    """Which groups a part must be marked for: of a zone the most onerous, of a Division all."""
    groups = list(dict.fromkeys(need.group for need in needs))
    if groups and groups[0].scheme in _UNDIVIDED:
        groups = [max(groups, key=lambda each: (severity(each) or 0, each is not Group.IIB_H2))]
    named = " and ".join(sorted(group.value for group in groups)) or "the group of the area"
    gas = any(need.substance is not None for need in needs) and groups[0].scheme in _GASES
    listed = ", or one whose listing names the gas" if gas else ""
    return f"Choose a part whose `marking` covers group {named}{listed}."


_GASES = (GroupScheme.ZONE_GAS, GroupScheme.DIVISION_GAS)


def _every(groups: frozenset[Group], scheme: GroupScheme) -> bool:
    """Whether the marked groups cover each group of a zone: IIC, IIIC.

    All letters of a Division are not all there is: carbon disulfide has none.
    """
    undivided = (Group.II, Group.III)
    asked = [group for group in Group if group.scheme is scheme and group not in undivided]
    zone = scheme in _UNDIVIDED
    return zone and all(covers(groups, group) is Cover.YES for group in asked)


def _by_milder(question: GroupQuestion, need: GroupNeed) -> bool:
    """Whether the group that somebody stated instead of the table's would be covered."""
    if need.milder is None:
        return False
    stated = replace(need, group=need.milder[0], with_seals=None)
    return _answer(question, stated, (stated,)) is not Cover.NO


def _marked(question: GroupQuestion) -> str:
    """The marked groups and gases in words."""
    words = sorted(group.value for group in question.groups)
    words += [f"only {gas}" for gas in question.gases]
    words += [f"{gas} too" for gas in question.extra_gases]
    if not words and question.dust_tight:
        return "no group, but the tightness of practice A"
    if not words and question.undivided:
        return "no group, by letters that do not divide it"
    return ", ".join(words) or "no group"


def _answer(  # noqa: PLR0911 - one return for each answer
    question: GroupQuestion, need: GroupNeed, needs: tuple[GroupNeed, ...]
) -> Cover:
    if question.gases:
        return _named_gas(question, need, needs)
    if not question.groups:
        served = question.dust_tight and need.group in (Group.IIIA, Group.IIIB)
        whole = question.undivided and need.group.scheme in _UNDIVIDED
        return Cover.YES if served or whole else Cover.UNPROVEN
    if need.substance is not None and need.substance in question.extra_gases:
        return Cover.YES
    if question.groups & {Group.II, Group.III} and need.group.scheme in _UNDIVIDED:
        return Cover.UNPROVEN if _needs_letter(question.protection) else Cover.YES
    answer = covers(question.groups, need.group)
    extended = Group.IIB_H2 in question.groups and need.group in (Group.IIC, Group.IIB_H2)
    if answer is Cover.NO and extended:
        return _hydrogen(need, needs)
    if answer is not Cover.YES and _letter_with_seals(question, need, needs) is not None:
        return _with_seals(question.seals, answer)
    return answer


def _needs_letter(protection: tuple[str, ...]) -> bool:
    """Whether `II` alone says nothing: for d, i, nC and nL, and for types that are not known."""
    found = [find_type(letter) for letter in protection]
    return not found or any(kind is None or kind.gas_group_letter for kind in found)


_UNDIVIDED = (GroupScheme.ZONE_GAS, GroupScheme.ZONE_DUST)


_HYDROGEN = "hydrogen"


def _hydrogen(need: GroupNeed, needs: tuple[GroupNeed, ...]) -> Cover:
    """IIB+H2 adds hydrogen only. A declared IIC may be due to hydrogen alone, or may not."""
    if need.group is Group.IIB_H2 or _HYDROGEN in (need.substance, need.due_to):
        return Cover.YES
    if need.substance is None and any(n.substance == _HYDROGEN for n in needs):
        return Cover.UNPROVEN
    return Cover.NO


def _seals() -> Figure:
    """Within what of an explosionproof box conduit is sealed for a milder letter to serve."""
    return figure("distance of a conduit seal", "milder group")


def _letter_with_seals(
    question: GroupQuestion, need: GroupNeed, needs: tuple[GroupNeed, ...]
) -> Group | None:
    """The milder, marked letter that serves where conduit is sealed near the explosionproof box.

    A declared group is met in the same way if only such substances account for it.
    """
    if not question.explosionproof:
        return None
    letter = need.with_seals
    if need.substance is None:
        same = [n for n in needs if n.substance is not None and n.group is need.group]
        letters = {n.with_seals for n in same}
        letter = next(iter(letters)) if len(letters) == 1 else None
    marked = letter is not None and covers(question.groups, letter) is Cover.YES
    return letter if marked else None


def _with_seals(seals: ConduitSeals | None, answer: Cover) -> Cover:
    """All runs must be sealed near enough; otherwise it is as without seals."""
    if seals is None or seals.within is None or seals.all_runs is None:
        return Cover.UNPROVEN
    near = seals.within <= _seals().amount(Dimension.LENGTH)
    return Cover.YES if seals.all_runs and near else answer


def both_units(length: Figure) -> str:
    """A length in inches as NFPA 70 prints it: `450 mm (18 in)`, with 25 mm to the inch."""
    inches = length.amount(Dimension.LENGTH) / Decimal("0.0254")
    return f"{number(inches * 25)} mm ({length.value})"


def _named_gas(question: GroupQuestion, need: GroupNeed, needs: tuple[GroupNeed, ...]) -> Cover:
    """Equipment for a named gas serves that gas; a group printed beside it serves as well."""
    if question.groups and covers(question.groups, need.group) is Cover.YES:
        return Cover.YES
    if need.substance is not None:
        return Cover.YES if need.substance in question.gases else Cover.NO
    own = [n for n in needs if n.substance in question.gases]
    rank = severity(need.group)
    explained = any((severity(n.group) or 0) >= (rank or 0) for n in own)
    return Cover.YES if explained else Cover.UNPROVEN


def _open(question: GroupQuestion, need: GroupNeed, answer: Answer) -> Judgement:
    """A group that the equipment may cover and is not shown to: what settles it, and who can."""
    group, found = need.group.value, answer.found
    if need.uncertain and question.groups:
        return answer.unproven(
            Reason.FACT_MISSING,
            f"{found} may fall short: {need.cause} asks for {group} if it gathers, and the area "
            "owner has to say whether it does.",
            remedy="Settle `hydrogen-evolution` of the place: have its area classification say "
            "whether hydrogen gathers, or state its `ventilation`; or choose a part whose "
            f"`marking` covers group {group}.",
            answer_by=Role.AREA_OWNER,
        )
    if not question.groups and not question.gases:
        return answer.unproven(
            Reason.FACT_MISSING,
            f"No group is marked, so cover for {group} is not shown.",
            remedy=f"Copy the `marking` with its group; {group} is needed.",
        )
    if Group.IIB_H2 in question.groups and need.group is Group.IIC and not question.gases:
        return answer.unproven(
            Reason.FACT_MISSING,
            f"{found} covers the hydrogen listed here. The area is declared {group}, and nothing "
            "says that hydrogen is the only reason for that.",
            remedy="Have the area owner confirm that hydrogen is the only reason for IIC and "
            "declare the area IIB+H2, or name its `document` beside the substances; or choose "
            "equipment for IIC.",
            answer_by=Role.AREA_OWNER,
        )
    if (substance := _sealable(question, need)) is not None:
        return answer.unproven(
            Reason.FACT_MISSING,
            f"{substance.cause} is Group {substance.group.value}; the marked equipment serves only "
            f"if every conduit run is sealed within {both_units(_seals())} of it, which "
            "`conduit_seals` does not state.",
            remedy="State `conduit_seals: {within: …, all_runs: …}`, or choose equipment for the "
            "group.",
            answer_by=Role.INSTALLER,
        )
    if question.groups & {Group.II, Group.III}:
        return answer.unproven(
            Reason.FACT_MISSING,
            f"{found} without a letter covers all groups only for types of protection that need "
            "no subdivision; this marking shows none of those.",
            remedy=f"Copy the `marking` with its types of protection and its group; {group} is "
            "needed.",
        )
    return answer.unproven(
        Reason.FACT_MISSING,
        f"{group} ({need.cause}) is not printed. {found} may well cover it, but no clause says so.",
        remedy="Ask the maker for the listing, which names every group that it holds for, and "
        "copy the `marking` so.",
    )


def _sealable(question: GroupQuestion, need: GroupNeed) -> GroupNeed | None:
    """The substance whose seal exception would answer the need."""
    return next(
        (
            each
            for each in question.needs
            if each.group is need.group
            and each.with_seals is not None
            and covers(question.groups, each.with_seals) is Cover.YES
        ),
        None,
    )


GAS_GROUP = Rule[GroupQuestion](
    id="gas-group",
    title="Gas group covers every gas or vapour present",
    family=Family.AREA,
    subject=Subject.NAMEPLATE,
    clause="NFPA 70-2023 500.6(A), 505.6; IEC 60079-0:2017 4.3; ISO/IEC 80079-20-1:2017",
    why="Groups rank how easily a gas is ignited by a spark and how far a flame passes through "
    "a gap; equipment tested for a milder group may ignite a more onerous one.",
    remedy="Choose a part marked for the needed group in the system of its marking, or one whose "
    "listing names the gas.",
    answer_by=Role.SUPPLIER,
    note="Division letters and Zone groups do not convert: each substance has its own row in "
    "each system. A milder letter that is not printed is unproven, since the order A to D is "
    "practice and no printed rule.",
    ask=_ask(GroupScheme.ZONE_GAS, GroupScheme.DIVISION_GAS),
    judge=judge_group,
    examples=(
        Example(
            "IIB+H2 where hydrogen is the only gas",
            Verdict.PASS,
            "{kind: electrical, marking: Ex db IIB+H2 T4 Gb}",
            "{area: Zone 1, substances: [hydrogen]}",
        ),
        Example(
            "IIB+H2 adds hydrogen, not acetylene",
            Verdict.FLAG,
            "{kind: electrical, marking: Ex db IIB+H2 T2 Gb}",
            "{area: Zone 1, substances: [acetylene]}",
        ),
        Example(
            "A Division marking without a group",
            Verdict.UNPROVEN,
            "{kind: electrical, marking: 'Class I, Division 1 T4'}",
            "{area: 'Class I, Division 1, Group D'}",
            "NEC",
        ),
    ),
)

DUST_GROUP = Rule[GroupQuestion](
    id="dust-group",
    title="Dust group covers every dust present",
    family=Family.AREA,
    subject=Subject.NAMEPLATE,
    clause="NFPA 70-2023 500.6(B), 506.6; IEC 60079-0:2017 4.4",
    why="Conductive dust that gets inside makes sparks and shorts; metal, carbon and other dusts "
    "are different hazards, and a mark for one says nothing of another.",
    remedy="Choose a part marked for the needed dust group.",
    answer_by=Role.SUPPLIER,
    note="E, F and G never stand in for each other. Metal dust is handled as Group E or IIIC "
    "whatever its particle size; carbon black and graphite are IIIC by their resistivity. "
    "Ex tD A with IP6X bears no group; it served every dust that does not conduct (IEC "
    "61241-1:2004 and 61241-14, from memory).",
    ask=_ask(GroupScheme.ZONE_DUST, GroupScheme.DIVISION_DUST),
    judge=judge_group,
    examples=(
        Example(
            "IIIC covers a non-conductive dust",
            Verdict.PASS,
            "{kind: electrical, marking: Ex tb IIIC T120 °C Db}",
            "{area: 'Zone 21, IIIB, T135 °C'}",
        ),
        Example(
            "Groups F and G in metal dust",
            Verdict.FLAG,
            "{kind: electrical, marking: 'Class II, Division 1, Groups F, G T3C'}",
            "{area: 'Class II, Division 1, Group E'}",
            "NEC",
        ),
        Example(
            "A dust code without its group letter",
            Verdict.UNPROVEN,
            "{kind: electrical, marking: II 2D Ex tD A21 IP65 T80°C}",
            "{area: 'Zone 21, IIIC, T135 °C'}",
            "ATEX",
        ),
    ),
)

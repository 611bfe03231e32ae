"""Dust group against the declared group and every dust present."""

from areafit.checks.area.ask import grouped, per_hazard
from areafit.checks.area.group import judge_group
from areafit.checks.area.group_question import GroupQuestion
from areafit.facts.groups import GroupScheme
from areafit.rule import Example, Family, Rule, Subject
from areafit.verdict import Role, Verdict

DUST_GROUP = Rule[GroupQuestion](
    id="dust-group",
    title="Dust group covers every dust present",
    family=Family.AREA,
    subject=Subject.EQUIPMENT,
    clause="NFPA 70-2023 500.6(B), 506.6; IEC 60079-0:2017 4.4",
    why="Conductive dust that gets inside makes sparks and shorts; metal, carbon and other dusts "
    "are different hazards, and a mark for one says nothing of another.",
    remedy="Choose a part marked for the needed dust group.",
    answer_by=Role.SUPPLIER,
    note="E, F and G never stand in for each other. Metal dust is handled as Group E or IIIC "
    "whatever its particle size; carbon black and graphite are IIIC by their resistivity. "
    "Ex tD A with IP6X bears no group; it served every dust that does not conduct (IEC "
    "61241-1:2004 and 61241-14, from memory).",
    ask=per_hazard(grouped(GroupScheme.ZONE_DUST, GroupScheme.DIVISION_DUST)),
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

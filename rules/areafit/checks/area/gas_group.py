"""Gas group, or named gas, against the declared group and every gas or vapour present."""

from areafit.checks.area.ask import grouped, per_hazard
from areafit.checks.area.group import judge_group
from areafit.checks.area.group_question import GroupQuestion
from areafit.facts.groups import GroupScheme
from areafit.rule import Example, Family, Rule, Subject
from areafit.verdict import Role, Verdict

GAS_GROUP = Rule[GroupQuestion](
    id="gas-group",
    title="Gas group covers every gas or vapour present",
    family=Family.AREA,
    subject=Subject.EQUIPMENT,
    clause="NFPA 70-2023 500.6(A), 505.6; IEC 60079-0:2017 4.3; ISO/IEC 80079-20-1:2017",
    why="Groups rank how easily a gas is ignited by a spark and how far a flame passes through "
    "a gap; equipment tested for a milder group may ignite a more onerous one.",
    remedy="Choose a part marked for the needed group in the system of its marking, or one whose "
    "listing names the gas.",
    answer_by=Role.SUPPLIER,
    note="Division letters and Zone groups do not convert: each substance has its own row in "
    "each system. A milder letter that is not printed is unproven, since the order A to D is "
    "practice and no printed rule.",
    ask=per_hazard(grouped(GroupScheme.ZONE_GAS, GroupScheme.DIVISION_GAS)),
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

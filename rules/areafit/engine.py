"""The one place that walks rules over subjects: facts in, one immutable report out.

A list repeats itself: thousands of lines share a nameplate or a material. So what was answered of
an aspect at a place, and what was judged of a question, is kept for the run. Only `judge` functions
decide; what this module adds to a judgement is the basis of its rows and, where that basis is not
good enough to pass, the word `unproven`.
"""

import functools
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Any, TypeVar

from areafit import registry
from areafit.checks.area.kind import KIND
from areafit.checks.area.selection import choose
from areafit.checks.inside import housed_in
from areafit.checks.papers import examined, refused
from areafit.demands import Demands, derive
from areafit.facts.bom import Bom
from areafit.facts.marking import facing, facing_outward
from areafit.facts.part import Equipment, Item, Mounted, Part
from areafit.findings.counts import count
from areafit.findings.report import (
    Answers,
    Block,
    BomReport,
    Judged,
    PartReport,
    PlaceReport,
    SubjectReport,
)
from areafit.findings.requires import requires
from areafit.options import WAITED_FOR, Options
from areafit.rule import Ask, Family, Judgement, Rule, Subject
from areafit.subjects import (
    PlaceCase,
    contacts_of,
    loop_case,
    mounted_in,
    origin_of,
    part_variants,
    parts_by_place,
    uses_of,
    wetting_of,
)
from areafit.tables import Tables
from areafit.tables.limits import basis_of
from areafit.values import replace
from areafit.verdict import Reason, Verdict, at_least, weakest, worst


def judge(bom: Bom, tables: Tables, options: Options) -> BomReport:
    """Judge every place, part, loop and the list itself against every chosen rule.

    Every finding of the report names the clause and the table rows that it rests on. It never
    raises for what a list states: what cannot be judged is `unproven`.

    Args:
        bom: the list, as `areafit.read` gives it.
        tables: the shipped tables, or those with a company's own rows laid over them.
        options: the date that decides, which rules, and what may pass.
    """
    return _Run(bom, tables, options).report()


Cache = dict
"""What a run keeps; a test puts one in its place that keeps nothing."""


class _Run:
    """One run over one list."""

    def __init__(self, bom: Bom, tables: Tables, options: Options) -> None:
        self._bom = bom
        self._options = options
        self._answered: dict[tuple[Subject, object, Demands | None], Answers] = Cache()
        self._asked: dict[tuple[str, Ask[Any]], Judged] = Cache()
        self._judgements: dict[tuple[str, object], Judgement] = Cache()
        self._nameplate = functools.cache(choose)
        self._rules = functools.cache(functools.partial(_chosen, options))
        self._all_asked = not WAITED_FOR.isdisjoint(options.accept_unproven | options.skip)
        self._parents = frozenset(part.parent for part in bom.parts if part.parent is not None)
        self._tables = tables
        self._demands: dict[str, Demands] = {}
        self._mounted: Mapping[Item, Mounted] = {}

    def report(self) -> BomReport:
        bom = self._bom
        own, parts, places, loops = self._judged_as(bom.parts)
        for others in _otherwise(bom.parts):
            other = self._judged_as(others)
            own = worse(own, other[0])
            parts = tuple(map(worse, parts, other[1]))
            places = tuple(map(worse, places, other[2]))
            loops = tuple(map(worse, loops, other[3]))
        return BomReport(
            bom,
            own,
            parts,
            places,
            loops,
            count(own, parts, places, loops),
            self._options.scope,
            decided_by_date=any(
                document.valid_until is not None
                for part in bom.parts
                for variant in part_variants(part)
                for document in variant.equipment.evidence or ()
            ),
            narrowed=self._options.narrowed,
            again=self._again,
        )

    def _again(self, kept: frozenset[str]) -> BomReport:
        """The same list, with all asked of parts that a waiver keeps."""
        return judge(self._bom, self._tables, replace(self._options, answered_for=kept))

    def _judged_as(
        self, parts: Sequence[Part]
    ) -> tuple[
        SubjectReport,
        tuple[PartReport, ...],
        tuple[PlaceReport, ...],
        tuple[SubjectReport, ...],
    ]:
        """The list itself, its parts, places and loops, as these lines have them."""
        bom = self._bom if parts is self._bom.parts else replace(self._bom, parts=tuple(parts))
        standing = parts_by_place(parts)
        self._demands = {
            name: derive(place, self._tables, self._options.as_of, standing.get(name, ()))
            for name, place in bom.places.items()
        }
        by_item = {part.item: part for part in parts}
        self._mounted = mounted_in(parts)
        return (
            self._subject(bom.assembly.number, Subject.BOM, bom, ""),
            tuple(self._part(part, by_item) for part in parts),
            tuple(self._place(name, parts) for name in bom.places),
            tuple(
                self._subject(
                    loop.name,
                    Subject.LOOP,
                    loop_case(loop, by_item, self._demands),
                    f"loops/{loop.index}",
                )
                for loop in bom.loops
            ),
        )

    def _part(self, part: Part, by_item: dict[Item, Part]) -> PartReport:
        blocks = tuple(
            block
            for variant in part_variants(part)
            for place in variant.locations
            for block in self._blocks(variant, self._demands[place], by_item)
        )
        verdict = worst([block.verdict for block in blocks])
        full = not self._options.only and not self._options.skip
        if full and verdict.passes and self._only_paper(blocks) and not self._nothing_to_meet(part):
            blocks, verdict = (*blocks, _nothing_judged(part)), Verdict.UNPROVEN
        return PartReport(part.item, verdict, blocks, self._bom, part=part)

    def _only_paper(self, blocks: Iterable[Block]) -> bool:
        return not any(_beyond_paper(block.judged) for block in blocks)

    def _nothing_to_meet(self, part: Part) -> bool:
        """Whether every place of the part is documented, unclassified and free of chemicals."""
        places = [self._bom.places[name] for name in part.locations]
        return all(
            place.area is not None
            and not place.area.problems
            and not any(area.classified for area in place.area.areas)
            and place.document is not None
            and place.chemicals == ()
            for place in places
        )

    def _blocks(self, part: Part, demands: Demands, by_item: dict[Item, Part]) -> Iterable[Block]:
        place, prefix = demands.place.name, part.prefix
        origin = origin_of(part)
        yield self._block(Subject.LINE, origin, demands, place, prefix)
        if origin.kind_unknown:  # every other question waits for this one
            return
        equipment = self._standing(part, demands, by_item)
        plate = self._nameplate(equipment, demands)
        body = part.body if equipment is part.equipment else replace(part.body, equipment=equipment)
        if equipment.markings and demands.hazards:
            body = replace(body, examined=examined(body, plate, demands), refused=refused(plate))
        yield self._block(Subject.NAMEPLATE, plate, demands, place, prefix)
        yield self._block(Subject.EQUIPMENT, equipment, demands, place, prefix)
        yield self._block(Subject.BODY, body, demands, place, prefix)
        yield self._block(
            Subject.WETTING,
            wetting_of(part, assembled=part.item in self._parents),
            demands,
            place,
            prefix,
        )
        for i, use in enumerate(uses_of(part, by_item)):
            yield self._block(Subject.MATERIAL, use, demands, place, f"{prefix}/materials/{i}")
        for path, contact in contacts_of(part, by_item):
            yield self._block(Subject.CONTACT, contact, demands, place, f"{prefix}/{path}")

    def _standing(self, part: Part, demands: Demands, by_item: dict[Item, Part]) -> Equipment:
        """The equipment as it stands at a place: inside what, and with which side to it."""
        equipment, name = part.equipment, demands.place.name
        if self._all_asked or part.item in self._options.answered_for:
            equipment = replace(equipment, kept=True)
        if part.materials == () and part.item in self._mounted:  # an assembly, made of its lines
            equipment = replace(equipment, mounted=self._mounted[part.item])
        around = by_item.get(equipment.inside) if equipment.inside is not None else None
        if around is not None:
            housed = housed_in(
                part,
                around,
                demands,
                lambda each: self._nameplate(self._standing(each, demands, by_item), demands),
            )
            equipment = replace(equipment, housed=housed)
        if part.process_side == name and len(part.locations) > 1:
            equipment = replace(
                equipment,
                faces_process=True,
                markings=None if equipment.markings is None else facing(equipment.markings),
            )
        elif part.process_side is not None and equipment.markings:
            here = part.process_side == name
            outward = facing_outward(equipment.markings, process_here=here)
            equipment = replace(equipment, markings=outward)
        return equipment

    def _place(self, name: str, parts: Sequence[Part]) -> PlaceReport:
        demands = self._demands[name]
        case = PlaceCase(demands, tuple(p for p in parts if name in p.locations))
        prefix = f"locations/{name}"
        block = self._block(Subject.PLACE, case, demands, name, prefix)
        return PlaceReport(
            name,
            block.verdict,
            (block,),
            self._bom,
            requires=requires(demands),
            demands=demands,
        )

    def _subject(self, name: str, subject: Subject, case: object, prefix: str) -> SubjectReport:
        block = self._block(subject, case, None, None, prefix)
        return SubjectReport(name, block.verdict, (block,), self._bom)

    def _block(
        self,
        subject: Subject,
        aspect: object,
        demands: Demands | None,
        place: str | None,
        prefix: str,
    ) -> Block:
        key = (subject, aspect, demands)
        answers = self._answered.get(key)
        if answers is None:
            judged = self._judged
            answers = self._answered[key] = Answers(
                [
                    judged(rule, ask)
                    for rule in self._rules(subject)
                    for ask in rule.ask(aspect, demands)
                ]
            )
        return Block(answers, place, prefix)

    def _judged(self, rule: Rule[Any], ask: Ask[Any]) -> Judged:
        """One object for each answer, so that what follows from it is worked out once too."""
        key = (rule.id, ask)
        judged = self._asked.get(key)
        if judged is None:
            judgement = self._judgement(rule, ask.question)
            judged = self._asked[key] = Judged(rule, ask, judgement)
        return judged

    def _judgement(self, rule: Rule[Any], question: object) -> Judgement:
        key = (rule.id, question)
        judgement = self._judgements.get(key)
        if judgement is None:
            judgement = self._judgements[key] = self._weighed(rule, rule.judge(question))
        return judgement

    def _weighed(self, rule: Rule[Any], judgement: Judgement) -> Judgement:
        """The judgement with the basis of its rows, or of its clause where it has none.

        A pass on too weak a basis is unproven.
        """
        options = self._options
        basis = weakest(row.basis for row in judgement.rows if row.governs) or basis_of(
            judgement.clause or rule.clause, self._bom.law
        )
        judgement = replace(judgement, basis=basis)
        if judgement.verdict is Verdict.PASS and not at_least(basis, options.least_basis):
            judgement = replace(
                judgement,
                verdict=Verdict.UNPROVEN,
                reason=Reason.NO_DATA,
                message=f"Known by {basis.value} only: {judgement.message}",
                required=f"{judgement.required}, by rows of basis {options.least_basis.value}",
                found=f"{judgement.found}, by {basis.value} only",
                remedy="Have a role accept it in a waiver, lay a row with its source over these "
                f"(`--tables`), or accept the basis for the whole run (`--least-basis "
                f"{basis.value}`).",
            )
        acceptable = judgement.verdict is Verdict.UNPROVEN and not judgement.document_to_waive
        if acceptable and rule.id in options.accept_unproven and not rule.always:
            judgement = replace(judgement, verdict=Verdict.WAIVED)
        return judgement


def _otherwise(parts: Sequence[Part]) -> Iterator[tuple[Part, ...]]:
    """The lines as each answer has them that differs from what is stated, and as all have them."""
    differing = [part for part in parts if part.otherwise]
    for part in differing:
        for other in part.otherwise:
            yield tuple(other if each is part else each for each in parts)
    if len(differing) > 1:
        yield tuple(each.otherwise[-1] if each.otherwise else each for each in parts)


_S = TypeVar("_S", bound=SubjectReport)


def worse(one: _S, other: _S) -> _S:
    """What was judged of a subject, with the worse verdict of each rule at each place."""
    if not any(not block.verdict.passes for block in other.blocks):
        return one
    mine, theirs = _by_rule(one), _by_rule(other)
    graver = {
        key
        for key, verdict in theirs.items()
        if not verdict.passes and worst((verdict, mine.get(key, _BEST))) is not mine.get(key)
    }
    if not graver:
        return one
    blocks = []
    for block in one.blocks:
        kept = [
            each
            for each in block.judged
            if (block.place, each.rule.id) not in graver or not each.judgement.verdict.passes
        ]
        blocks.append(Block(Answers(kept), block.place, block.prefix))
    for block in other.blocks:
        added = [
            each
            for each in block.judged
            if (block.place, each.rule.id) in graver and not each.judgement.verdict.passes
        ]
        if added:
            blocks.append(Block(Answers(added), block.place, block.prefix))
    return replace(one, blocks=tuple(blocks), verdict=worst(block.verdict for block in blocks))


_BEST = Verdict.NOT_APPLICABLE


def _by_rule(subject: SubjectReport) -> dict[tuple[str | None, str], Verdict]:
    found: dict[tuple[str | None, str], Verdict] = {}
    for block in subject.blocks:
        for each in block.judged:
            key = (block.place, each.rule.id)
            found[key] = worst((found.get(key, _BEST), each.judgement.verdict))
    return found


def _beyond_paper(answers: Answers) -> bool:
    """Whether something passed but what the part's papers say of themselves."""
    return any(
        judged.judgement.verdict is Verdict.PASS and judged.rule.family is not Family.PROOF
        for judged in answers
    )


def _nothing_judged(part: Part) -> Block:
    """The finding on a part to which no requirement applied: silence is not a pass."""
    judgement = Judgement(
        Verdict.UNPROVEN,
        "No requirement could be applied, so nothing is shown.",
        required="something that can be judged, or a documented unclassified place without "
        "chemicals",
        found="no requirement applies",
        reason=Reason.NOT_JUDGED,
        remedy="State the place's area, document and chemicals, and the part's materials.",
    )
    judged = Judged(KIND, Ask(part.equipment.kinds, "kind"), judgement)
    return Block(Answers((judged,)), None, part.prefix)


def _chosen(options: Options, subject: Subject) -> tuple[Rule[Any], ...]:
    """The rules for a subject that the options leave, imported when the list has such a subject."""
    only, skip = options.only, options.skip
    return tuple(
        rule
        for rule in registry.on(subject)
        if rule.always or (rule.id not in skip and (not only or rule.id in only))
    )

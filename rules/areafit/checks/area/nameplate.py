"""What a nameplate puts forward at a place: what the rules of the area are handed of a part.

For each hazard one of its codes answers, which `selection` chooses, or none does, and why.
"""

from collections.abc import Iterator

from areafit.demands import Demands, HazardDemand
from areafit.demands.demand import asked_level
from areafit.documents import bears, certifies, expired
from areafit.facts.evidence import Evidence
from areafit.facts.marking import Code
from areafit.facts.part import Equipment, Kind
from areafit.facts.protection import Law, Suffix
from areafit.tables.part_names import names_wiring
from areafit.values import Frozen, Term


class Missing(Term):
    """Why no code of the nameplate answers a hazard."""

    NO_MARKING = "no marking is stated"
    UNMARKED = "the part is said to bear no marking"
    UNREAD = "the marking could not be read whole"
    OTHER_HAZARD = "nothing on the nameplate is for this hazard"
    OTHER_SIDE = "the nameplate protects the other side of the part only"
    ASSOCIATED = "the nameplate protects outgoing circuits only, not the housing"

    @property
    def remedy(self) -> str:
        """What to write, where the list is what lacks; empty where the part does."""
        if self is Missing.NO_MARKING:
            return "Copy the nameplate into `marking`, or write `none` where the part bears none."
        if self is Missing.UNREAD:
            return (
                "Compare with the nameplate and copy it whole into `marking`, such as II 2G Ex db "
                "IIC T4 Gb."
            )
        return ""


class Candidate(Frozen, eq=False):
    """A part at a place, and the code that is to answer a hazard; without one, what is missing.

    `path` is the marking's. `electrical` says whether the code answers for something electrical:
    of codes of both kinds each answers for its own half.
    """

    equipment: Equipment
    demands: Demands
    hazard: HazardDemand
    code: Code | None
    missing: Missing | None
    path: str
    electrical: bool

    @property
    def flagged(self) -> bool:
        """Whether `protection-level` flags the part where it stands, whatever else it bears.

        NFPA 70 knows devices that need no marking.
        """
        if self.missing is Missing.UNMARKED:
            return self.demands.law is not Law.NEC
        return self.missing in (Missing.ASSOCIATED, Missing.OTHER_HAZARD, Missing.OTHER_SIDE)

    @property
    def component(self) -> bool:
        """Whether the code is one of a component by itself, which `ex-component` flags or asks."""
        return self.code is not None and self.code.suffix is Suffix.U and self.path != "inside"


class ChosenCodes(Frozen, eq=False):
    """A part at a place with what is chosen of its nameplate for every hazard there."""

    equipment: Equipment
    chosen: tuple[Candidate, ...]

    @property
    def counts(self) -> bool:
        """Electrical parts need a marking; others are held to one that they bear.

        Simple apparatus needs none (`simple-apparatus` judges it), nor does a cable or a raceway
        (`wiring-method` and `flexible-cord` do).
        """
        own = self.equipment
        borne = own.markings and Kind.SIMPLE_APPARATUS not in own.kinds
        return bool(borne) or (own.electrical and not is_wiring(own))

    @property
    def asked(self) -> tuple[Candidate, ...]:
        """What is chosen, of a part whose nameplate counts."""
        return self.chosen if self.counts else ()


def valid_documents(choice: Candidate) -> Iterator[Evidence]:
    """The documents of the part itself that are not past their date."""
    placed, as_of = choice.equipment.placed_on_market, choice.demands.as_of
    for document in choice.equipment.evidence or ():
        if not document.elsewhere and not expired(document, placed, as_of):
            yield document


def serving(choice: Candidate) -> tuple[Evidence, ...]:
    """The documents that certify the code: numbered, valid, of equipment, for the level asked."""
    law, code = choice.demands.law, choice.code
    asked = asked_level(choice.demands, choice.hazard)

    def reaches(document: Evidence) -> bool:
        level = document.level
        return level is None or (level.value[0] == asked.value[0] and level.rank <= asked.rank)

    return tuple(
        document
        for document in valid_documents(choice)
        if certifies(document, law, code, electrical=choice.electrical)
        and not bears(document, Suffix.U)
        and reaches(document)
    )


def is_wiring(equipment: Equipment) -> bool:
    """Whether an electrical line is a cable, a cord or a raceway, by all that it says of itself.

    Its description must call it so and name nothing else, and it bears no device.
    """
    if not equipment.electrical or equipment.device is not None or equipment.description is None:
        return False
    return names_wiring(equipment.description)


def is_intrinsically_safe(code: Code) -> bool:
    """Whether a Division code says that the equipment is intrinsically safe, and by that alone.

    `XP-IS` is an enclosure with such circuits in it or from it: the enclosure must hold too.
    """
    safe = "intrinsically safe" in code.words or any(p in ("ia", "i") for p in code.protection)
    return safe and code.purge is None and _ENCLOSURES.isdisjoint(code.words)


_ENCLOSURES = frozenset({"explosionproof", "dust-ignitionproof"})

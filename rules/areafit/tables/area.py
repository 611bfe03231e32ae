"""What markings, types of protection and enclosures are good for, as the standards print it.

Set by standards and installation rules, so that a company's own rows cannot be laid over them.
"""

from decimal import Decimal
from functools import cache

from areafit.facts.protection import Hazard
from areafit.tables.load import rows
from areafit.tables.sources import Sourced
from areafit.values import Term


class Accepted(Term):
    """What the rules say of a combination that they name."""

    YES = "yes"
    UNPROVEN = "unproven"


class Acceptance(Sourced):
    """One accepted combination; one without a row is refused, and none is inferred from another.

    `area` is `I/1` (Class I, Division 1) or `zone 1`; `offer` is `I/2` for a Division marking
    (` is` where it is intrinsically safe), `AEx Gb` for a North American zone marking, `Ex Gb`
    for an IEC or European one.
    """

    law: str
    area: str
    offer: str
    answer: Accepted
    clause: str


@cache
def acceptance() -> dict[tuple[str, str, str], Acceptance]:
    """The table by law, area and offer."""
    return {(row.law, row.area, row.offer): row for row in rows("acceptance", Acceptance)}


class WiringAllowed(Term):
    """On what condition the rules name a cable or raceway for an area."""

    YES = "yes"
    RESTRICTED = "restricted access"  # only qualified persons service it
    MOVING = "where it must move"
    TIGHT = "where tight"  # dusttight, or enclosed and gasketed


class WiringRow(Sourced):
    """A cable or raceway that is named for an area; one without a row is refused.

    `area` is `I/1` or `zone 1`, `method` a word of the format.
    """

    law: str
    area: str
    method: str
    allowed: WiringAllowed
    clause: str


@cache
def wiring_rows(law: str, area: str) -> dict[str, WiringRow]:
    """What is named for an area, by method; ATEX follows IEC 60079-14."""
    governs = "IEC" if law == "ATEX" else law
    found = rows("wiring_methods", WiringRow)
    return {row.method: row for row in found if (row.law, row.area) == (governs, area)}


class EditionStanding(Term):
    """How an edition stands to what is applied here."""

    APPLIED = "applied"  # its text is what the rules follow
    ALIKE = "alike"  # another text that asks the same where the rules here judge
    OTHER = "other"  # known to differ, or not worked through


class Edition(Sourced):
    """One edition by the year that a list states; `law` is the word of `code`."""

    law: str
    year: str
    standing: EditionStanding
    text: str


def editions(law: str) -> tuple[Edition, ...]:
    """The editions of one installation rule that the table knows, oldest first."""
    return tuple(row for row in rows("editions", Edition) if row.law == law)


class ClassScheme(Term):
    """Which markings may use a temperature class."""

    BOTH = "both"
    NEC_DIVISION = "nec division"


class TemperatureClass(Sourced):
    """A class and the highest surface temperature, in °C, that it stands for."""

    name: str
    max_c: Decimal
    scheme: ClassScheme


class TypeFamily(Term):
    """Letters behind `Ex`, or the letters of the old standards for non-electrical equipment."""

    ELECTRICAL = "electrical"
    NON_ELECTRICAL = "non-electrical"


class TypeStatus(Term):
    """Whether the current edition still uses the letter."""

    CURRENT = "current"
    LEGACY = "legacy"


class Gives(Term):
    """The level that a type gives for one hazard.

    `A`, `B`, `C` are the second letters of the level; `AS_PRINTED` leaves it to the printed level
    or category; `BY_PRACTICE` to the zone printed behind `tD`; `NONE`: not for this hazard.
    """

    A = "a"
    B = "b"
    C = "c"
    AS_PRINTED = "as printed"
    BY_PRACTICE = "by practice"
    NONE = ""


class ProtectionType(Sourced):
    """One type; `gas_group_letter`: for gas it needs IIA, IIB or IIC, `II` alone says nothing."""

    letter: str
    family: TypeFamily
    status: TypeStatus
    gas: Gives
    dust: Gives
    gas_group_letter: bool
    standard: str

    def gives(self, hazard: Hazard) -> Gives:
        """The level that the type gives for a hazard."""
        return self.dust if hazard is Hazard.DUST else self.gas


class SupersededForm(Sourced):
    """A type letter, or `EEx`; `last_year` is the last in which its standard was harmonised."""

    form: str
    family: TypeFamily
    last_year: int
    standard: str
    successor: str


@cache
def superseded_form(form: str, *, non_electrical: bool = False) -> SupersededForm | None:
    """The row of a form, None for one that is in use."""
    family = TypeFamily.NON_ELECTRICAL if non_electrical else TypeFamily.ELECTRICAL
    found = rows("superseded_forms", SupersededForm)
    return next((row for row in found if row.form == form and row.family is family), None)


class EnclosureType(Sourced):
    """A Type of NEMA 250, the IP digits that it shows at least, and the Types that it covers.

    The correspondence holds one way: an IP rating never shows a Type, which also tests ice,
    corrosion, oil and the ageing of gaskets.
    """

    type: str
    ip_first: int
    ip_second: int
    covers: tuple[str, ...]


class MinimumIngress(Sourced):
    """The least digits for a type of protection and a dust group (`any` for all).

    `ip_second` is None where the standard leaves it open.
    """

    protection: str
    group: str
    ip_first: int
    ip_second: int | None
    clause: str

    @property
    def degree(self) -> str:
        """As a plate prints it, `IP54` or `IP6X`."""
        return f"IP{self.ip_first}{'X' if self.ip_second is None else self.ip_second}"


@cache
def enclosure_types() -> dict[str, EnclosureType]:
    """The Types by name."""
    return {row.type: row for row in rows("enclosure_types", EnclosureType)}


@cache
def minimum_ingress() -> dict[tuple[str, str], MinimumIngress]:
    """The least ratings by type of protection and group."""
    return {(row.protection, row.group): row for row in rows("minimum_ingress", MinimumIngress)}


class PurgeType(Sourced):
    """One type: `X`, `Y`, `Z` of NFPA 496 or the p letters of IEC 60079-2.

    `contents` and `on_loss` list the words of the format that serve.
    """

    type: str
    contents: tuple[str, ...]
    on_loss: tuple[str, ...]
    clause: str


@cache
def purges() -> dict[str, PurgeType]:
    """The table by type."""
    return {row.type: row for row in rows("purges", PurgeType)}


class Contacts(Term):
    """Whether make-and-break contacts may be there."""

    NEVER = "never"  # a device with them is not covered
    ANY = "any"  # the enclosure is enough
    PROTECTED = "protected"  # sealed, under oil, or in a nonincendive circuit


class GeneralPurpose(Sourced):
    """One allowance.

    `area` is a key of the acceptance table, `device` a word of the format. `enclosures` lists
    those that serve, empty where any does; `asks` further facts that must be stated to be absent
    or looked at (`inverter`, `space heater`, `interlock`); `share_pct` is the percentage of the
    autoignition temperature in °C that a surface may reach.
    """

    area: str
    device: str
    contacts: Contacts
    enclosures: tuple[str, ...]
    asks: tuple[str, ...]
    share_pct: Decimal
    clause: str


@cache
def general_purpose() -> dict[tuple[str, str], GeneralPurpose]:
    """The table by area and device."""
    return {(row.area, row.device): row for row in rows("general_purpose", GeneralPurpose)}

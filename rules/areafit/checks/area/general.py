"""May an unmarked, general-purpose part stand here: the allowances of NFPA 70."""

from areafit.checks.area.fitting import FITTINGS
from areafit.checks.area.general_use import GeneralUse, general_row
from areafit.facts.fittings import ContactProtection
from areafit.facts.place import Area
from areafit.rule import Judgement, Row, flagged, passed, unproven
from areafit.tables.area import Contacts, GeneralPurpose
from areafit.values import Frozen
from areafit.verdict import Reason, Role
from areafit.wording import capital


def judge_general(area: Area, use: GeneralUse) -> Judgement:
    """Every condition of the allowance must be stated; one that fails refuses it."""
    place = area.name
    required = f"a marking for {place}, or a general-purpose device that is allowed there"
    if use.device is None:
        return unproven(
            Reason.FACT_MISSING,
            f"The part bears no marking, and what device it is is not stated: {place} lets in "
            "only certain unmarked devices.",
            required=required,
            found="no marking",
            remedy="State `device`, `arcing` and what the allowance asks, or choose marked "
            "equipment.",
            answer_by=Role.DESIGNER,
        )
    row = general_row(area, use)
    if row is None and use.device in FITTINGS:
        return unproven(
            Reason.FACT_MISSING,
            f"Whether an unmarked {use.device.value} may stand in {place} is for the enclosure "
            "that it closes.",
            required=required,
            found=f"unmarked {use.device.value}",
            remedy="List it in the `entries` of that enclosure instead, or choose a marked one.",
            answer_by=Role.DESIGNER,
        )
    if row is None:
        return flagged(
            f"No rule lets an unmarked {use.device.value} stand in {place}.",
            required=required,
            found=f"unmarked {use.device.value}",
        )
    return _conditions(row, use, place)


def _conditions(row: GeneralPurpose, use: GeneralUse, place: str) -> Judgement:
    key = f"{row.area}, {row.device}"
    cited = (Row.of("general_purpose", key, row),)
    required = f"{row.device} without a marking: {_terms(row)}"
    found = _found(use)

    open_points = [*_contacts(row, use), *_enclosure(row, use), *_asks(row, use)]
    for point in sorted(open_points, key=lambda each: not each.fails):
        if point.fails:
            return flagged(
                point.message, required=required, found=found, clause=row.clause, rows=cited
            )
        return unproven(
            Reason.FACT_MISSING,
            point.message,
            required=required,
            found=found,
            clause=row.clause,
            rows=cited,
            remedy=f"State `{point.key}` from the maker's data, or choose marked equipment.",
        )
    note = f" {capital(row.note)}." if row.note else ""
    return passed(
        f"An unmarked {row.device} may stand in {place}.{note}",
        required=required,
        found=found,
        clause=row.clause,
        rows=cited,
    )


class _Point(Frozen):
    """A condition that is not met: the key that states it, and whether a stated fact fails."""

    key: str
    message: str
    fails: bool = False


def _contacts(  # noqa: PLR0911 - one return for each answer
    row: GeneralPurpose, use: GeneralUse
) -> list[_Point]:
    if row.contacts is Contacts.ANY:
        return []
    if use.arcing is None:
        return [_Point("arcing", "Whether contacts make and break in it is not stated.")]
    if not use.arcing:
        return []
    if row.contacts is Contacts.NEVER:
        message = f"Contacts arc in normal service, which no unmarked {row.device} may here."
        return [_Point("arcing", message, fails=True)]
    if use.contact_protection is None:
        message = "Contacts make and break in it; what protects them is not stated."
        return [_Point("contact_protection", message)]
    if use.contact_protection is ContactProtection.NONE:
        message = (
            "Contacts make and break in it and nothing protects them; a weather enclosure is no "
            "explosion protection."
        )
        return [_Point("contact_protection", message, fails=True)]
    return []


def _enclosure(row: GeneralPurpose, use: GeneralUse) -> list[_Point]:
    if not row.enclosures:
        return []
    if use.enclosure is None:
        return [_Point("enclosure", "How it is enclosed is not stated.")]
    if use.enclosure.value not in row.enclosures:
        message = f"It must be {' or '.join(row.enclosures)}; it is {use.enclosure.value}."
        return [_Point("enclosure", message, fails=True)]
    return []


def _asks(row: GeneralPurpose, use: GeneralUse) -> list[_Point]:
    found: list[_Point] = []
    if "inverter" in row.asks and use.inverter_fed is not False:
        message = (
            "An inverter heats the rotor and makes shaft voltages, so the maker must state the "
            "temperatures for it."
            if use.inverter_fed
            else "Whether an inverter feeds it is not stated."
        )
        found.append(_Point("inverter_fed", message))
    if "space heater" in row.asks and use.space_heater is None:
        found.append(_Point("space_heater", "Whether a space heater is inside is not stated."))
    return found


def _terms(row: GeneralPurpose) -> str:
    contacts = {
        Contacts.NEVER: "no arcing contacts",
        Contacts.PROTECTED: "contacts sealed, under oil or in a nonincendive circuit",
        Contacts.ANY: "contacts inside the enclosure",
    }[row.contacts]
    words = [contacts, *([" or ".join(row.enclosures)] if row.enclosures else [])]
    words += ["not fed by an inverter"] if "inverter" in row.asks else []
    return ", ".join(words)


def _found(use: GeneralUse) -> str:
    words = [use.device.value if use.device else "no device stated"]
    if use.arcing is not None:
        words.append("arcing contacts" if use.arcing else "no arcing contacts")
    if use.contact_protection is not None:
        words.append(f"contacts: {use.contact_protection.value}")
    if use.enclosure is not None:
        words.append(use.enclosure.value)
    if use.inverter_fed is not None:
        words.append("inverter-fed" if use.inverter_fed else "on the line")
    return ", ".join(words)

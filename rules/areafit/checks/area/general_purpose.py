"""May an unmarked, general-purpose part stand here: the allowances of NFPA 70."""

from collections.abc import Iterator

from areafit.checks.area.nameplate import Missing
from areafit.demands import Demands
from areafit.facts.fittings import ContactProtection, Device, Enclosure
from areafit.facts.part import Equipment
from areafit.facts.place import Area
from areafit.facts.protection import Law
from areafit.rule import Answer, Judgement, Row
from areafit.tables.area import Contacts, GeneralPurpose, general_purpose
from areafit.tables.descriptions import DescribedPart, Says, both_sides, without_figures
from areafit.tables.part_names import Topic, topic_of, topics, words_of
from areafit.values import Frozen
from areafit.verdict import Reason, Role
from areafit.wording import capital

FITTINGS = frozenset(
    {Device.CABLE_GLAND, Device.STOPPING_PLUG, Device.THREAD_ADAPTER, Device.CONDUIT_SEAL}
)
"""What closes the openings of other enclosures, makes no heat and bears no temperature class."""


class GeneralUse(Frozen):
    """What an unmarked electrical part states, for the allowances of general-purpose equipment.

    `carried`: it is called a hand lamp; `on_stand`: it is said to stand on a movable stand;
    `sliding`: it is called what has a sliding contact; `contact_beside`: what makes and breaks and
    comes with it, or what an instrument is called that does, by its description; `called`: what
    that calls it, where it is something electrical that is no device of the allowances.
    """

    device: Device | None
    arcing: bool | None
    contact_protection: ContactProtection | None
    enclosure: Enclosure | None
    inverter_fed: bool | None
    space_heater: bool | None
    interlocked: bool | None = None
    carried: bool = False
    on_stand: bool = False
    sliding: bool = False
    contact_beside: str = ""
    called: str = ""

    @classmethod
    def of(cls, equipment: Equipment) -> "GeneralUse":
        """The facts of a part."""
        told = topics(equipment.description) if equipment.description else frozenset[Topic]()
        return cls(
            equipment.device,
            equipment.arcing,
            equipment.contact_protection,
            equipment.enclosure,
            equipment.inverter_fed,
            equipment.space_heater,
            equipment.interlocked,
            Topic.HAND_LAMP in told,
            Topic.STAND in told,
            Topic.SLIDING_CONTACT in told,
            *_named(equipment),
        )


_MAKES_AND_BREAKS = frozenset(
    {
        Device.SWITCH.value,
        Device.PUSH_BUTTON.value,
        Device.RELAY.value,
        Device.CONTACTOR.value,
        Device.CIRCUIT_BREAKER.value,
        Device.RECEPTACLE.value,
    }
)


# Instruments are made of electronics: these switch power, store it, move or spark.
_NO_INSTRUMENTS = frozenset(
    {Topic.NO_INSTRUMENT, Topic.BATTERY, Topic.BRAKE, Topic.CLUTCH, Topic.HYDRAULICS}
    | {Topic.POWER_ULTRASOUND, Topic.POWER_DRIVEN}
)


def _named(equipment: Equipment) -> tuple[str, str]:
    """A contact that its name speaks of, and a name that no device of the allowances has."""
    if equipment.description is None or equipment.device is None:
        return "", ""
    own = equipment.device.value
    text = without_figures(equipment.description)
    main, beside = both_sides(text)
    contacts = [row for row in beside if own not in row.devices]
    if equipment.device is Device.INSTRUMENT:
        # What is called a switch has a contact; what has none is called a sensor.
        contacts += [row for row in (*main, *beside) if Device.SWITCH.value in row.devices]
        others = [row for row in main if _is_no_instrument(row)]
    else:
        others = [row for row in main if row.says is Says.ELECTRICAL]
        others = [] if any(row.devices for row in others) else others
    if equipment.device in _PLAIN:
        others += [row for row in (*main, *beside) if _is_more(row, own)]
    if equipment.device is Device.SQUIRREL_CAGE_MOTOR:
        others += [row for row in beside if topic_of(row) in _NO_INSTRUMENTS - {Topic.BRAKE}]
    opens = [row.word for row in contacts if not _MAKES_AND_BREAKS.isdisjoint(row.devices)]
    called = [row.word for row in others]
    if not any(own in row.devices for row in main):
        called += words_of(Topic.NO_INSTRUMENT, text)
        driven = equipment.device in _DRIVEN or any(own in row.devices for row in beside)
        called += () if driven else words_of(Topic.POWER_DRIVEN, text)
    return opens[0] if opens else "", called[0] if called else ""


# A pump that states its motor is told by that.
_DRIVEN = frozenset({Device.SQUIRREL_CAGE_MOTOR, Device.MOTOR_WITH_SWITCH})


# What a box for terminals, a luminaire or a transformer is made of, and how it is wired.
_PLAIN = frozenset({Device.JUNCTION_BOX, Device.LUMINAIRE, Device.TRANSFORMER, Device.RESISTOR})
_PARTS = frozenset(
    {Device.JUNCTION_BOX.value, Device.TRANSFORMER.value, *(each.value for each in FITTINGS)}
)


def _is_more(row: DescribedPart, own: str) -> bool:
    """Whether a word names what such a device does not hold by itself: a sensor, a lamp, a fan."""
    if row.says is Says.MOVING:
        return True
    return row.says is Says.ELECTRICAL and not {own, *_PARTS} & set(row.devices)


def _is_no_instrument(row: DescribedPart) -> bool:
    named = row.electrical and topic_of(row) in _NO_INSTRUMENTS
    return named or row.says is Says.MOVING


def general_use(
    equipment: Equipment, demands: Demands, missing: Missing | None
) -> GeneralUse | None:
    """The facts for the allowances of NFPA 70, which alone knows them; None elsewhere."""
    if missing is not Missing.UNMARKED or demands.law is not Law.NEC:
        return None
    return GeneralUse.of(equipment)


def general_row(area: Area, use: GeneralUse) -> GeneralPurpose | None:
    """The allowance for the device in this area, None where there is none."""
    if use.device is None:
        return None
    return general_purpose().get((area.key, use.device.value))


def cited(row: GeneralPurpose) -> Row:
    """An allowance as reports cite it."""
    return Row.of("general_purpose", f"{row.area}, {row.device}", row)


def judge_general(area: Area, use: GeneralUse) -> Judgement:
    """Every condition of the allowance must be stated; one that fails refuses it."""
    place = area.name
    required = f"a marking for {place}, or a general-purpose device that is allowed there"
    if use.device is None:
        return Answer(required, "no marking").unproven(
            Reason.FACT_MISSING,
            f"The part bears no marking, and what device it is is not stated: {place} lets in "
            "only certain unmarked devices.",
            remedy="State `device`, `arcing` and what the allowance asks, or choose marked "
            "equipment.",
            answer_by=Role.DESIGNER,
        )
    row = general_row(area, use)
    if row is not None:
        return _judge_allowance(row, use, place)
    answer = Answer(required, f"unmarked {use.device.value}")
    if use.device in FITTINGS:
        return answer.unproven(
            Reason.FACT_MISSING,
            f"Whether an unmarked {use.device.value} may stand in {place} is for the enclosure "
            "that it closes.",
            remedy="State it among the entries of that enclosure and not as a line of its own, "
            "or choose a marked one.",
            answer_by=Role.DESIGNER,
        )
    return answer.flagged(f"No rule lets an unmarked {use.device.value} stand in {place}.")


def _judge_allowance(row: GeneralPurpose, use: GeneralUse, place: str) -> Judgement:
    answer = Answer(
        required=f"{row.device} without a marking: {_terms(row)}",
        found=_found(use),
        rows=(cited(row),),
        clause=row.clause,
    )
    for unmet in sorted(_unmet(row, use), key=lambda each: not each.fails):
        if unmet.fails:
            return answer.flagged(unmet.message, remedy=unmet.remedy)
        return answer.unproven(
            Reason.FACT_MISSING,
            unmet.message,
            remedy=unmet.remedy
            or f"State `{unmet.key}` from the maker's data, or choose marked equipment.",
        )
    note = f" {capital(row.note)}." if row.note else ""
    return answer.passed(f"An unmarked {row.device} may stand in {place}.{note}")


class _Unmet(Frozen):
    """A condition that is not met: the key that states it, and whether a stated fact fails."""

    key: str
    message: str
    fails: bool = False
    remedy: str = ""


def _unmet(row: GeneralPurpose, use: GeneralUse) -> Iterator[_Unmet]:
    if use.called:
        yield _Unmet(
            "device",
            f"Its name says {use.called!r}; the allowance is for an unmarked {row.device}.",
            remedy="Choose marked equipment; or say in `description` which device it is, with an "
            "instrument for what is made of electronics alone.",
        )
    if use.carried and use.device is Device.LUMINAIRE and not row.area.startswith("III"):
        message = "The allowance is for fixed luminaires; portable ones are marked for the place."
        yield _Unmet("device", message, fails=True)
    elif use.on_stand and use.device is Device.LUMINAIRE and not row.area.startswith("III"):
        yield _Unmet(
            "device",
            "By its name it stands on a stand. The allowance is for fixed luminaires; one on a "
            "movable stand also needs a cord as for portable lamps, which no fact here shows.",
            remedy="Choose a portable luminaire that is marked for the place; or have a role "
            "accept stand and cord by a waiver (NFPA 70 501.130(B), 501.140).",
        )
    yield from _contacts(row, use)
    if row.enclosures and use.enclosure is None:
        yield _Unmet("enclosure", "How it is enclosed is not stated.")
    elif row.enclosures and use.enclosure is not None and use.enclosure.value not in row.enclosures:
        message = f"It must be {' or '.join(row.enclosures)}; it is {use.enclosure.value}."
        yield _Unmet("enclosure", message, fails=True)
    if "inverter" in row.asks and use.inverter_fed is not False:
        message = (
            "An inverter heats the rotor and makes shaft voltages, so the maker must state the "
            "temperatures for it."
            if use.inverter_fed
            else "Whether an inverter feeds it is not stated."
        )
        yield _Unmet("inverter_fed", message)
    if "space heater" in row.asks and use.space_heater is None:
        yield _Unmet("space_heater", "Whether a space heater is inside is not stated.")
    if "interlock" in row.asks and use.interlocked is not True:
        message = (
            "Whether its plug goes in and out only while it is dead is not stated."
            if use.interlocked is None
            else "Its plug can be pulled out of live contacts, which then arc."
        )
        yield _Unmet("interlocked", message, fails=use.interlocked is False)


def _contacts(row: GeneralPurpose, use: GeneralUse) -> Iterator[_Unmet]:
    if row.contacts is Contacts.ANY:
        return
    if use.sliding and not use.arcing:
        yield _Unmet(
            "arcing",
            "By its name it has a sliding contact, which counts as one that makes and breaks.",
            remedy="Choose marked equipment, or one without a contact; or say in `description` "
            "that it has none.",
        )
    elif use.contact_beside and not use.arcing:
        yield _Unmet(
            "arcing",
            f"Its name says {use.contact_beside!r}, which opens circuits.",
            remedy="Choose marked equipment; or state that as a line of its own, and leave it out "
            "of this `description`.",
        )
    elif use.arcing is None and row.contacts is Contacts.NEVER:
        yield _Unmet("arcing", "Whether contacts make and break in it is not stated.")
    elif row.contacts is Contacts.NEVER:
        if use.arcing:
            message = f"Contacts arc in normal service, which no unmarked {row.device} may here."
            yield _Unmet("arcing", message, fails=True)
    elif use.arcing is not False:
        yield from _unprotected(use)


def _unprotected(use: GeneralUse) -> Iterator[_Unmet]:
    """Contacts of what is there to make and break, unless it says that it has none.

    What protects them decides; beside that nobody need say that a switch has contacts.
    """
    has = "Contacts make and break in it"
    otherwise = "choose marked equipment"
    if use.arcing is None and use.device is not None:
        has = f"A {use.device.value} makes and breaks contacts"
        otherwise += ", or say of one that switches without contacts that it is not arcing"
    if use.contact_protection is None:
        yield _Unmet(
            "contact_protection",
            f"{has}; what protects them is not stated.",
            remedy=f"State `contact_protection` from the maker's data; or {otherwise}.",
        )
    elif use.contact_protection is ContactProtection.NONE:
        yield _Unmet(
            "contact_protection",
            f"{has} and nothing protects them; a weather enclosure is no explosion protection.",
            fails=True,
            remedy="" if use.arcing else f"{capital(otherwise)}; its `marking` is for the place.",
        )


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

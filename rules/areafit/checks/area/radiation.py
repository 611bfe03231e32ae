"""What a part radiates: focused light, radio waves, ultrasound, each against the place's group."""

from collections.abc import Iterator
from decimal import Decimal

from areafit.checks.area.group import GroupQuestion, judge_group
from areafit.checks.area.level import judged_level, question_of
from areafit.checks.area.nameplate import Candidate, ChosenCodes, serving
from areafit.demands import Demands, HazardDemand
from areafit.demands.demand import asked_level, place_names
from areafit.documents import permission
from areafit.facts.evidence import Condition, EvidenceType
from areafit.facts.fittings import Device
from areafit.facts.groups import Group
from areafit.facts.part import Equipment, Kind
from areafit.facts.protection import Hazard
from areafit.facts.quantity import Dimension, show
from areafit.marking.temperature import class_limits
from areafit.rule import Answer, Ask, Example, Family, Judgement, Row, Rule, Subject
from areafit.tables.limits import figure
from areafit.tables.part_names import Topic, topics
from areafit.values import Frozen, replace
from areafit.verdict import Reason, Role, Verdict

_SHOW = frozenset(
    {
        EvidenceType.CERTIFICATE,
        EvidenceType.LISTING,
        EvidenceType.TEST_REPORT,
        EvidenceType.ASSESSMENT,
    }
)
_IIC = frozenset({Group.IIC, Group.IIB_H2, Group.II, Group.A, Group.B})
_IIB = frozenset({Group.IIB, Group.C})


def _told(equipment: Equipment, topic: Topic) -> bool:
    """Whether the description brings the part under the topic."""
    return equipment.description is not None and topic in topics(equipment.description)


def _wired(equipment: Equipment) -> bool:
    return equipment.electrical or Kind.SIMPLE_APPARATUS in equipment.kinds


def _group(hazard: HazardDemand) -> str:
    """The most onerous group of a place as the limits are printed; IIC where it is not known.

    Dust and fibres have one limit. A substance counts by its row in either system.
    """
    if hazard.hazard is not Hazard.GAS:
        return "III"
    home = hazard.group_demand(hazard.home)
    needed = {need.group for demand in hazard.groups for need in demand.needs}
    if home is None or home.gaps or not home.needs or needed & _IIC:
        return "IIC"
    return "IIB" if needed & _IIB else "IIA"


def _permitted(equipment: Equipment, *words: str) -> Condition | None:
    """A condition about these words that is met, of a document that names the part."""
    return permission(equipment.evidence or (), _SHOW, words)


def _refused(plate: ChosenCodes, hazard: HazardDemand) -> bool:
    """Whether the plate is flagged for the hazard, so that the part goes whatever it radiates."""
    own = [each for each in plate.asked if each.hazard.hazard is hazard.hazard]
    return not plate.equipment.kept and any(
        each.flagged
        or judged_level(question_of(each)).verdict is Verdict.FLAG
        or judge_group(GroupQuestion.of(each)).verdict is Verdict.FLAG
        for each in own
    )


def _certified(choice: Candidate) -> str:
    """The document that certifies a code of the right level and group here; empty if none does."""
    code = choice.code
    if code is None or code.non_electrical or choice.component:
        return ""
    holds = (
        judged_level(question_of(choice)).verdict is Verdict.PASS
        and judge_group(GroupQuestion.of(choice)).verdict is Verdict.PASS
    )
    papers = serving(choice) if holds else ()
    return next((f"{each.type.value} {each.number}" for each in papers), "")


def _covered(condition: Condition, answer: Answer) -> Judgement:
    return answer.passed(
        f"A document covers it: {condition.text} ({condition.met_by}, {condition.document})."
    )


# Focused light


class FocusedLight(Frozen):
    """Power in W and irradiance in W/m² of the light, and the row of limits for the place.

    `marked` says that the code that answers here names a protection of optical radiation, `faults`
    that the level asked for counts faults too.
    """

    power: Decimal | None
    irradiance: Decimal | None
    limit: str
    place: str
    marked: bool
    faults: bool
    condition: Condition | None = None


def _ask_light(plate: ChosenCodes, demands: Demands) -> Iterator[Ask[FocusedLight]]:
    """Electrical parts that state its power, or whose description names a laser and the like.

    Luminaires are outside IEC 60079-28, and so are indicating lamps.
    """
    own = plate.equipment
    stated = own.optical_power is not None or own.optical_irradiance is not None
    told = _told(own, Topic.FOCUSED_LIGHT)
    if not _wired(own) or not (stated or told) or (own.device is Device.LUMINAIRE and not told):
        return
    condition = _permitted(own, "optical", "laser")
    for hazard in demands.hazards:
        if not stated and _refused(plate, hazard):
            continue
        codes = [each.code for each in plate.chosen if each.hazard.hazard is hazard.hazard]
        question = FocusedLight(
            own.optical_power,
            own.optical_irradiance,
            _light_row(hazard),
            place_names(hazard),
            marked=any(code is not None and _optical(code.protection) for code in codes),
            faults=asked_level(demands, hazard).rank == 0,
            condition=condition,
        )
        yield Ask(question, "optical_power")


def _optical(protection: tuple[str, ...]) -> bool:
    """Whether a code says how its light is kept from igniting: op is, op pr or op sh."""
    return any(each.startswith("op ") for each in protection)


def _light_row(hazard: HazardDemand) -> str:
    """The row of IEC 60079-28, Table 2, that holds at the place; the strictest if unknown."""
    group, classes = _group(hazard), class_limits()
    if group == "III":
        return group
    lowest = min((limit.maximum for limit in hazard.limits), default=None)
    if lowest is None or hazard.temperature_gaps or lowest < classes["T4"]:
        return "II, T6"
    return "IIA, T3" if group == "IIA" and lowest >= classes["T3"] else "II, T4"


def _judge_light(light: FocusedLight) -> Judgement:
    power = figure("optical power", light.limit)
    irradiance = figure("optical irradiance", light.limit)
    stated = (
        (light.power, Dimension.POWER, power),
        (light.irradiance, Dimension.INTENSITY, irradiance),
    )
    found = ", ".join(show(value, unit) for value, unit, _ in stated if value is not None)
    answer = Answer(
        required=f"op is, op pr or op sh on the nameplate, or at most {power.value} or "
        f"{irradiance.value}",
        found="marked for its light" if light.marked else found or "not stated",
        rows=() if light.marked else (Row.of_figure(power), Row.of_figure(irradiance)),
    )
    if light.marked:
        return answer.passed("The nameplate names a protection of its optical radiation.")
    if light.condition is not None:
        return _covered(light.condition, answer)
    if not found:
        return answer.unproven(
            Reason.FACT_MISSING,
            "The part sends out focused light; its power is not stated, and the nameplate names no "
            "protection of it.",
        )
    if not any(v is not None and v <= limit.amount(unit) for v, unit, limit in stated):
        return answer.flagged(
            f"{found} can ignite what is in {light.place}, and nothing encloses the light.",
            remedy="Choose a part whose `marking` names op is, op pr or op sh, or one of at most "
            f"`optical_power: {power.value}`.",
        )
    if light.faults:
        return answer.unproven(
            Reason.CONDITION_TO_ACCEPT,
            f"{found} holds in normal use; in {light.place} faults of its driver count too.",
            remedy="Choose a part marked op is for the level, or state the condition of its "
            "certificate that limits the light under faults.",
        )
    return answer.passed(f"{found} is too weak to ignite what is here.")


OPTICAL_RADIATION = Rule[FocusedLight](
    id="optical-radiation",
    title="Focused light is too weak to ignite, or protected",
    family=Family.AREA,
    subject=Subject.NAMEPLATE,
    clause="IEC 60079-28:2015 4; EN 1127-1:2019 (optical radiation); IEC 60079-14:2013 6.9",
    why="A beam that meets dust or a speck of rust heats it red-hot without any spark.",
    remedy="Choose a part marked op is, op pr or op sh, or state `optical_power` from its data "
    "sheet.",
    answer_by=Role.SUPPLIER,
    note="Asked of lasers, scanners and fibre optics; luminaires and indicating lamps are outside "
    "IEC 60079-28. Limits are those of continuous light by Table 2, from memory; pulses need the "
    "maker's word. NFPA 70 prints no limits: these are applied all the same.",
    ask=_ask_light,
    judge=_judge_light,
    examples=(
        Example(
            "A laser sensor of 5 mW",
            Verdict.PASS,
            "{kind: electrical, description: Laser sensor, marking: Ex ia IIC T4 Gb, "
            "optical_power: 5 mW}",
            "{area: 'Zone 1, IIC, T4'}",
        ),
        Example(
            "A fibre-optic coupler marked for its light",
            Verdict.PASS,
            "{kind: electrical, description: Fibre-optic coupler, marking: Ex db op pr IIC T4 Gb}",
            "{area: 'Zone 1, IIC, T4'}",
        ),
        Example(
            "A marking laser of 20 W",
            Verdict.FLAG,
            "{kind: electrical, description: Laser, marking: Ex db IIB T4 Gb, optical_power: 20 W}",
            "{area: 'Zone 1, IIB, T4'}",
        ),
        Example(
            "A laser scanner, nothing stated of its light",
            Verdict.UNPROVEN,
            "{kind: electrical, description: Laser scanner, marking: Ex db IIC T4 Gb}",
            "{area: 'Zone 1, IIB, T4'}",
        ),
    ),
)


# Radio waves


class RadioWaves(Frozen):
    """Power in W that the part radiates, and the group that the place holds it to.

    `certified` is the document that certifies its code for level and group of the place.
    """

    power: Decimal | None
    group: str
    condition: Condition | None = None
    certified: str = ""


def _ask_radio(plate: ChosenCodes, demands: Demands) -> Iterator[Ask[RadioWaves]]:
    """Electrical parts that state it, or whose description names a transmitter or an antenna."""
    own = plate.equipment
    if not _wired(own) or not (own.radio_power is not None or _told(own, Topic.RADIO)):
        return
    condition = _permitted(own, "radio", "antenna", "rfid", "wireless")
    asked: dict[RadioWaves, None] = {}
    for hazard in demands.hazards:
        if own.radio_power is None and _refused(plate, hazard):
            continue
        papers = [_certified(each) for each in plate.chosen if each.hazard.hazard is hazard.hazard]
        certified = papers[0] if papers and all(papers) and own.radio_power is None else ""
        asked[RadioWaves(own.radio_power, _group(hazard), condition, certified)] = None
    for question in asked:
        yield Ask(question, "radio_power")


def _judge_radio(waves: RadioWaves) -> Judgement:
    limit, power = figure("radio power", waves.group), waves.power
    answer = Answer(
        required=f"at most {limit.value} radiated where the group is {waves.group}",
        found="not stated" if power is None else show(power, Dimension.POWER),
        rows=(Row.of_figure(limit),),
    )
    if power is not None and power > limit.amount(Dimension.POWER):
        return answer.flagged(
            f"{answer.found} can make metal near the antenna spark in group {waves.group}.",
            remedy=f"Lower it to `radio_power: {limit.value}` at most, output times the gain of "
            "the antenna.",
        )
    if power is not None:
        return answer.passed(f"{answer.found} is below what lights group {waves.group}.")
    if waves.condition is not None:
        return _covered(waves.condition, answer)
    if waves.certified:
        return replace(answer, found=waves.certified, rows=()).passed(
            "What the part radiates is examined with it: it is certified for level and group of "
            f"this place by {waves.certified}."
        )
    return answer.unproven(
        Reason.FACT_MISSING,
        "The part sends radio waves; the power that it radiates with its antenna is not stated.",
    )


RADIO_POWER = Rule[RadioWaves](
    id="radio-power",
    title="Radio waves are too weak to ignite",
    family=Family.AREA,
    subject=Subject.NAMEPLATE,
    clause="IEC 60079-0:2017 6.6.1; EN 1127-1:2019 (radio waves); IEC 60079-14:2013 6.7",
    why="Metal that receives strong radio waves sparks where it is loose, as any receiving antenna "
    "does.",
    remedy="State `radio_power`, output times the gain of the antenna, and lower it where it is "
    "too high.",
    answer_by=Role.SUPPLIER,
    note="Thresholds of continuous waves, from memory; pulses need the maker's word. Passive tags "
    "send nothing of their own. A certificate for level and group of the place answers for the "
    "transmitter that it certifies (IEC 60079-0:2017 6.6.1 is a clause of that examination); an "
    "antenna on a line of its own bears none.",
    ask=_ask_radio,
    judge=_judge_radio,
    examples=(
        Example(
            "A reader of 1 W in hydrogen",
            Verdict.PASS,
            "{kind: electrical, description: RFID reader, radio_power: 1 W}",
            "{area: 'Zone 1, IIC, T4'}",
        ),
        Example(
            "A reader of 4 W in hydrogen",
            Verdict.FLAG,
            "{kind: electrical, description: RFID reader, radio_power: 4 W}",
            "{area: 'Zone 1, IIC, T4'}",
        ),
        Example(
            "An antenna of which nothing is said",
            Verdict.UNPROVEN,
            "{kind: electrical, description: Antenna}",
            "{area: 'Zone 2, IIA, T3'}",
        ),
    ),
)


# Ultrasound


class SoundField(Frozen):
    """The intensity of its ultrasound in W/m²."""

    intensity: Decimal | None
    condition: Condition | None = None


def _ask_ultrasound(plate: ChosenCodes, demands: Demands) -> Iterator[Ask[SoundField]]:
    """Parts that state it, and those that work by it: baths, welders, horns; no sensors."""
    own = plate.equipment
    asked = own.ultrasound_intensity is not None or _told(own, Topic.POWER_ULTRASOUND)
    if demands.classified and asked:
        condition = _permitted(own, "ultrasound", "ultrasonic")
        yield Ask(SoundField(own.ultrasound_intensity, condition), "ultrasound_intensity")


def _judge_ultrasound(sound: SoundField) -> Judgement:
    limit, intensity = figure("ultrasound intensity"), sound.intensity
    found = "not stated" if intensity is None else show(intensity, Dimension.INTENSITY)
    required = f"at most {limit.value}, or an assessment that covers more"
    answer = Answer(required, found, (Row.of_figure(limit),))
    if intensity is not None and intensity <= limit.amount(Dimension.INTENSITY):
        return answer.passed(f"{found} is no effective ignition source.")
    if sound.condition is not None:
        return _covered(sound.condition, answer)
    if intensity is None:
        return answer.unproven(
            Reason.FACT_MISSING,
            "The part works by ultrasound; the intensity of the sound is not stated.",
        )
    return answer.flagged(
        f"{found} is over {limit.value}; solids that absorb it grow hot, and no document covers it."
    )


ULTRASOUND = Rule[SoundField](
    id="ultrasound",
    title="Ultrasound is weak, or assessed",
    family=Family.AREA,
    subject=Subject.NAMEPLATE,
    clause="IEC 60079-0:2017 6.6.3; EN 1127-1:2019 (ultrasound); IEC 60079-14:2013 5.8",
    why="Strong ultrasound is absorbed by solids and heats them until they ignite what is around.",
    remedy="State `ultrasound_intensity`, or the condition of an assessment for ultrasound and how "
    "it is met.",
    answer_by=Role.SUPPLIER,
    note="The limit holds up to 10 MHz and is from memory. Sensors stay far below it and are not "
    "asked.",
    ask=_ask_ultrasound,
    judge=_judge_ultrasound,
    examples=(
        Example(
            "A weak field",
            Verdict.PASS,
            "{kind: electrical, ultrasound_intensity: 0.05 W/cm²}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
        Example(
            "A cleaning bath",
            Verdict.FLAG,
            "{kind: electrical, description: Ultrasonic bath, ultrasound_intensity: 0.5 W/cm²}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
        Example(
            "A welder of which nothing is said",
            Verdict.UNPROVEN,
            "{kind: electrical, description: Ultrasonic welder}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
    ),
)

"""Generated markings: printing and reading them is the identity, extra words never help."""

import random
from decimal import Decimal

import pytest

from areafit.facts.groups import Cover, Group, covers
from areafit.facts.marking import Code, Output, TemperatureMark
from areafit.facts.protection import Hazard, Level, MarkingSystem, Purge, Suffix
from areafit.facts.quantity import Range
from areafit.marking import decode, effective_level
from areafit.marking.canonical import canonical
from areafit.marking.temperature import class_limits
from areafit.values import replace

GAS = {
    "a": ["da", "ia", "ma"],
    "b": ["db", "eb", "ib", "mb", "ob", "pxb", "pyb", "qb", "op pr"],
    "c": ["dc", "ec", "ic", "mc", "nC", "nR", "oc", "pzc"],
}
DUST = {"a": ["ta", "ia", "ma"], "b": ["tb", "ib", "mb", "pxb", "pyb"], "c": ["tc", "ic", "mc"]}
GAS_GROUPS = [Group.IIA, Group.IIB, Group.IIB_H2, Group.IIC]
DUST_GROUPS = [Group.IIIA, Group.IIIB, Group.IIIC]
ZONE_CLASSES = [f"T{number}" for number in range(1, 7)]
GASES = ["ammonia", "hydrogen", "propane", "carbon disulfide", "1,3-butadiene"]
WORDS = ["intrinsically safe", "hermetically sealed", "oil-immersed", "dusttight"]
NUMBERS = {"a": 1, "b": 2, "c": 3}


def span(pick: random.Random) -> Range:
    low = Decimal(pick.randint(-60, 20))
    return Range(low, low + pick.randint(0, 100))


def marks(pick: random.Random, code: Code) -> Code:
    """Temperatures: none, a class, a figure, a layer figure, or classes by ambient."""
    dust = code.hazard is Hazard.DUST and code.system is not MarkingSystem.NEC_DIVISION
    division = code.system is MarkingSystem.NEC_DIVISION
    names = list(class_limits()) if division else ZONE_CLASSES
    match pick.randrange(4):
        case 0:
            return code
        case 1:
            layer = (
                Decimal(pick.choice([200, 500])) / 1000 if dust and pick.random() < 0.5 else None
            )
            value = Decimal(pick.randint(40, 450))
            return replace(code, temperatures=(TemperatureMark(value, layer=layer),))
        case 2 if not dust:
            name = pick.choice(names)
            return replace(code, temperatures=(TemperatureMark(class_limits()[name], name),))
        case 3 if not dust:
            low = Decimal(pick.randint(-60, -20))
            chosen = pick.sample(names, 2)
            highs = sorted(pick.sample(range(20, 90), 2))
            rows = [
                TemperatureMark(class_limits()[name], name, Range(low, Decimal(high)))
                for name, high in zip(chosen, highs, strict=True)
            ]
            whole = Range(low, Decimal(highs[-1]))
            return replace(code, temperatures=tuple(rows), ambient=whole)
        case _:
            return code


def beside(pick: random.Random, code: Code) -> Code:
    """Ambient, ingress and suffix."""
    if code.ambient is None and pick.random() < 0.4:
        code = replace(code, ambient=span(pick))
    if pick.random() < 0.3:
        code = replace(code, ingress=pick.choice(["IP66", "IP66, IP67", "IP68, Type 4X", "IP69K"]))
    return replace(code, suffix=pick.choice([None, None, Suffix.X, Suffix.U]))


def division(pick: random.Random) -> Code:
    name = pick.choice(["I", "II", "III"])
    hazard = {"I": Hazard.GAS, "II": Hazard.DUST, "III": Hazard.FIBRES}[name]
    letters = {"I": "ABCD", "II": "FG", "III": ""}[name]
    chosen = pick.sample(letters, pick.randint(0, len(letters)))
    code = Code(
        MarkingSystem.NEC_DIVISION,
        hazard,
        hazard_class=name,
        divisions=pick.choice([(), (1,), (2,), (1, 2)]),
        groups=frozenset(Group(letter) for letter in chosen),
        gases=tuple(pick.sample(GASES, pick.choice([0, 0, 1]))) if name == "I" else (),
        words=tuple(pick.sample(WORDS, pick.choice([0, 0, 1, 2]))),
        associated=pick.random() < 0.1,
    )
    if pick.random() < 0.2:
        purge = pick.choice(list(Purge) if 1 not in code.divisions else [Purge.X, Purge.Y])
        contents = pick.choice([None, "general purpose", "Division 2"])
        action = pick.choice([None, "power cut", "alarm"])
        code = replace(code, purge=purge, purge_contents=contents, purge_action=action)
    if pick.random() < 0.2:
        groups = frozenset(pick.sample([Group.A, Group.B, Group.C, Group.D], 2))
        code = replace(code, outputs=(Output(("intrinsically safe",), groups),))
    return beside(pick, marks(pick, code))


def zoned(pick: random.Random) -> Code:
    hazard = pick.choice([Hazard.GAS, Hazard.DUST])
    letter = pick.choice("abc")
    table, prefix = (GAS, "G") if hazard is Hazard.GAS else (DUST, "D")
    better = [t for key in "abc" if key < letter for t in table[key]]
    types = [pick.choice(table[letter]), *pick.sample(better, min(len(better), pick.randrange(3)))]
    groups = GAS_GROUPS if hazard is Hazard.GAS else DUST_GROUPS
    system = pick.choice([MarkingSystem.IEC, MarkingSystem.ATEX, MarkingSystem.NEC_ZONE])
    level = Level(prefix + letter) if pick.random() < 0.8 else None
    code = Code(
        system,
        hazard,
        protection=tuple(dict.fromkeys(types)),
        groups=frozenset({pick.choice(groups)}),
        gases=tuple(pick.sample(GASES, pick.choice([0, 0, 0, 1]))) if prefix == "G" else (),
        level=level,
    )
    if system is MarkingSystem.ATEX:
        category = f"{NUMBERS[letter]}{prefix}"
        code = replace(code, equipment_group="II", category=category)
    if system is MarkingSystem.NEC_ZONE and pick.random() < 0.8:
        zone = NUMBERS[letter] - 1 + (20 if prefix == "D" else 0)
        place = "I" if prefix == "G" and pick.random() < 0.8 else None
        code = replace(code, zone=zone, hazard_class=place)
    if pick.random() < 0.3:
        inner = pick.choice(["ia", "ib", "ic"])
        box = Output((inner,), code.groups, Level(prefix + inner[1]))
        code = replace(code, outputs=(box,))
        if pick.random() < 0.3:
            code = replace(code, protection=(), level=None, category=None, associated=True)
    return beside(pick, marks(pick, code))


def round_trips(seed: int, count: int) -> None:
    pick = random.Random(seed)  # noqa: S311 - no secret
    for _ in range(count):
        code = pick.choice([division, zoned])(pick)
        text = canonical(code)
        marking = decode(text)
        said = ("needs IP", "An ambient up to")  # drawn without regard to each other
        wrong = [p for p in marking.problems if not any(words in p.message for words in said)]
        assert not wrong, (text, wrong)
        assert marking.codes == (code,), text


def test_generated_codes_survive_printing() -> None:
    round_trips(1, 2_000)


@pytest.mark.long
def test_many_generated_codes_survive_printing() -> None:
    round_trips(2, 100_000)


EXTRA = [
    *GAS["a"],
    *GAS["b"],
    *GAS["c"],
    *(  # noqa: SIM905 - one word a line would hide what they are
        "de e d m nA n h s X U Ga Gb Gc Da Db Dc Ma IIA IIB IIC II III IIIC T1 T4 T6 T3C 60 2 1 "
        "IP66 IP20 Type only not and or / , ; ( ) [ ] ia] [ia + - G D GD 1G (1) A B C D Group C "
        "intrinsically safe explosionproof associated apparatus (NH3) ammonia °C Ta °"
    ).split(),
]


def hottest(code: Code) -> Decimal:
    return max((mark.maximum or Decimal(999) for mark in code.temperatures), default=Decimal(999))


def no_better(code: Code, base: Code, wanted: list[Group]) -> bool:
    """Whether a code promises no more than the base: level, groups, temperature."""
    level, known = effective_level(code), effective_level(base)
    if level is not None and (known is None or level.rank < known.rank):
        return False
    reach = {g for g in wanted if covers(code.groups, g) is Cover.YES}
    allowed = {g for g in wanted if covers(base.groups, g) is Cover.YES}
    return reach <= allowed and hottest(code) >= hottest(base)


def extra_words(seed: int, count: int) -> None:
    pick = random.Random(seed)  # noqa: S311 - no secret
    for _ in range(count):
        letter = pick.choice("abc")
        types = " ".join(pick.sample(GAS[letter], 2))
        group = pick.choice(GAS_GROUPS).value
        number = pick.choice(ZONE_CLASSES)
        text = f"Ex {types} {group} {number} G{letter} Ta -10..30"
        base = decode(text).codes[0]
        words = text.split()
        words.insert(pick.randint(0, len(words)), pick.choice(EXTRA))
        marking = decode(" ".join(words))
        for code in marking.codes:
            good = no_better(code, base, [*GAS_GROUPS, *DUST_GROUPS])
            assert marking.problems or good, marking.text
        if marking.codes:
            level, known = effective_level(marking.codes[0]), effective_level(base)
            assert known is not None
            assert level is None or level.rank >= known.rank, marking.text


def test_a_stray_word_never_makes_a_marking_better() -> None:
    extra_words(3, 2_000)


@pytest.mark.long
def test_many_stray_words_never_make_a_marking_better() -> None:
    extra_words(4, 100_000)


def test_a_stray_letter_never_widens_a_division_marking() -> None:
    # A letter behind a comma of the list is no stray one: it is printed as a member.
    base = "Class I, Division 2, Groups C, D, T4"
    letters = decode(base).codes[0].groups
    words = base.split()
    for at in range(len(words) + 1):
        for extra in ("A", "B", "AB", "1", "X", "T6", "IIC", "Ga", "Zone", "0", "ia", "100", "G"):
            marking = decode(" ".join([*words[:at], extra, *words[at:]]))
            member = at > 4 and words[at - 1].endswith(",") and extra in {"A", "B", "AB"}
            for code in () if member else marking.codes:
                same = code.groups <= letters and code.divisions in {(2,), ()}
                assert marking.problems or (same and hottest(code) >= 135), marking.text

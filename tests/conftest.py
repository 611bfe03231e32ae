"""What all tests share: generated cases are the same in every run, and nothing reaches out."""

import socket
from typing import NoReturn

import pytest
from hypothesis import settings

# A merge must not fail by chance: new cases are searched for with `--hypothesis-profile=search`.
settings.register_profile("steady", derandomize=True, deadline=None)
settings.register_profile("search", deadline=None, max_examples=2000)
settings.load_profile("steady")


@pytest.fixture(autouse=True)
def _no_network(monkeypatch: pytest.MonkeyPatch) -> None:
    """Refuse every connection: the tool has no business on a network, and its tests have none."""

    def refuse(*_: object, **__: object) -> NoReturn:
        raise AssertionError("a test tried to connect")

    monkeypatch.setattr(socket.socket, "connect", refuse)

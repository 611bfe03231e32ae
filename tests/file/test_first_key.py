import pytest

from areafit.file import first_key


@pytest.mark.parametrize(
    ("data", "key"),
    [
        (b"areafit: 1\n", "areafit"),
        (b"# note\n\n---\nareafit-areas: 1\n", "areafit-areas"),
        (b"%YAML 1.2\r\n---\r\n  # x\r\nareafit-waivers: 1\r\n", "areafit-waivers"),
        (b"'areafit': 1", "areafit"),
        (b'{"areafit": 1}', "areafit"),
        (b'{\n  "areafit": 1}', "areafit"),
        ("areafit: 1".encode("utf-16"), "areafit"),
        ("\ufeffareafit: 1".encode(), "areafit"),
        (b"areafit:", "areafit"),
        (b"areafit:1\n", None),
        (b"- areafit: 1\n", None),
        (b"just text\n", None),
        (b"", None),
        (b"\x00\xff\xfe", None),
        (b"\n" * 100_000 + b"areafit: 1", None),
        (b"# x\n" * 16_000, None),
        (b" " * 60_000 + b"!", None),
        (b"areafit" + b" " * 60_000 + b"!", None),
    ],
)
def test_first_key(data: bytes, key: str | None) -> None:
    assert first_key(data) == key

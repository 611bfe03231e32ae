"""The usual calls of `areafit part` and `areafit check`, read without typer.

Importing typer takes longer than judging one part. What this does not understand, help and every
mistake included, it leaves to typer; tests hold that both read the same call alike.
"""

from collections.abc import Container, Mapping, Sequence
from types import MappingProxyType

from areafit.verdict import Basis

MANY = (
    "area",
    "substance",
    "chemical",
    "kind",
    "material",
    "exposure",
    "listing",
    "certificate",
    "declaration",
    "control_drawing",
    "assessment",
    "accept_unproven",
)
ONE = (
    "ambient",
    "layer",
    "document",
    "code",
    "edition",
    "rated_ambient",
    "surface_temperature",
    "ingress",
    "electrical_content",
    "entries",
    "device",
    "least_basis",
    "format_",
)
FLAGS = ("materials_complete", "no_contacts", "bonded", "quiet", "exit_zero")
_CLOSED = MappingProxyType(
    {"least_basis": tuple(basis.value for basis in Basis), "format_": ("text", "json")}
)
_FIELDS = MappingProxyType(
    {"--" + name.strip("_").replace("_", "-"): name for name in (*MANY, *ONE, *FLAGS)}
)


def part(arguments: Sequence[str]) -> Mapping[str, object] | None:
    """What the call states, as arguments of `query.answer`; None where typer must look at it."""
    many: dict[str, list[str]] = {}
    one: dict[str, object] = {}
    rest = iter(arguments)
    for argument in rest:
        option, equals, value = argument.partition("=")
        name = _FIELDS.get(option)
        if not argument.startswith("-"):
            many.setdefault("marking", []).append(argument)
        elif name is None or (name in FLAGS and equals):
            return None
        elif name in FLAGS:
            one[name] = True
        else:
            text = value if equals else next(rest, None)
            if text is None or text not in _CLOSED.get(name, (text,)):
                return None
            if name in MANY:
                many.setdefault(name, []).append(text)
            else:
                one[name] = text
    return {**many, **one}


_CHECK = MappingProxyType(
    {
        "--format": "formats",
        "-f": "formats",
        "--quiet": "quiet",
        "-q": "quiet",
        "--exit-zero": "exit_zero",
        "--no-config": "no_config",
    }
)


def check(arguments: Sequence[str], formats: Container[str]) -> Mapping[str, object] | None:
    """What the call states, as arguments of `checking.check`; None where typer must look at it.

    A configuration is for typer too: the caller looks for one unless `no_config` is stated.
    """
    stated: dict[str, object] = {}
    paths: list[str] = []
    asked: list[str] = []
    rest = iter(arguments)
    for argument in rest:
        option, equals, value = argument.partition("=")
        name = _CHECK.get(option)
        if not argument.startswith("-"):
            paths.append(argument)
        elif name == "formats" and not (equals and option == "-f"):
            text = value if equals else next(rest, "")
            if text not in formats:
                return None
            asked.append(text)
        elif name is None or equals or name == "formats":
            return None
        else:
            stated[name] = True
    if not paths:
        return None
    return {"path": paths, **({"formats": asked} if asked else {}), **stated}

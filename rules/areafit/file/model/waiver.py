"""A waiver file: its outermost keys and its entries."""

from typing import Annotated, Any, ClassVar

from pydantic import AfterValidator, Field

from areafit.file.model.base import Model
from areafit.file.model.mistake import Mistake
from areafit.file.model.types import Listed
from areafit.file.model.words import Date, Reference, Text, Version
from areafit.pattern import pattern

_FINGERPRINT = pattern("[0-9a-f]{24}")


def _said(text: str | None) -> str:
    """A text that must say something: `n/a` and the like are no reason and no role."""
    if text is None:
        raise Mistake("this says nothing", "write what holds, in words that can be checked")
    return text


def _role(text: str) -> str:
    if "@" in text:
        message = "this looks like the address of a person"
        raise Mistake(message, "write the role that answers for it, such as area owner")
    return text


def _fingerprint(text: str) -> str:
    if not _FINGERPRINT.fullmatch(text):
        raise Mistake(
            "this is no fingerprint of a finding",
            "copy it from the JSON report, or let `areafit waiver add` write the entry",
        )
    return text


Said = Annotated[Reference, AfterValidator(_said)]


class WaiverModel(Model):
    """An accepted deviation; it names exactly one item, loop or place."""

    called: ClassVar[str] = "a waiver"

    item: Text | None = None
    loop: Text | None = None
    place: Text | None = None
    assembly: Annotated[
        Text | None, Field(description="number of the list it is for, if the file serves several")
    ] = None
    rule: Annotated[Text, Field(description="the rule whose finding is waived")]
    component: Text | None = None
    fingerprint: Annotated[
        Text,
        AfterValidator(_fingerprint),
        Field(description="of the finding; a changed fact changes it and voids the waiver"),
    ]
    reason: Annotated[Said, Field(description="why it is acceptable")]
    approved_by: Annotated[
        Said, AfterValidator(_role), Field(description="the role that answers for it")
    ]
    until: Annotated[Date, Field(description="the last day on which it holds")]
    document: Annotated[
        Reference | None,
        Field(description="needed for a flag of an area, proof, ignition or loop rule"),
    ] = None


class WaiversHeaderModel(Model):
    """A waiver file whose entries are still as written."""

    called: ClassVar[str] = "a waiver file"

    waivers_version: Annotated[
        Version, Field(validation_alias="areafit-waivers", description="version of this format")
    ]
    waivers: Any = None


class WaiversModel(WaiversHeaderModel):
    """Accepted deviations, each with a reason, a role and a last day."""

    waivers: Annotated[tuple[WaiverModel, ...], Listed(none=True)]

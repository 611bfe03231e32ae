"""Why a nameplate does not answer a hazard."""

from areafit.values import Term


class Missing(Term):
    """Why no code of the nameplate answers a hazard."""

    NO_MARKING = "no marking is stated"
    UNMARKED = "the part is said to bear no marking"
    UNREAD = "the marking could not be read whole"
    OTHER_HAZARD = "nothing on the nameplate is for this hazard"
    ASSOCIATED = "the nameplate protects outgoing circuits only, not the housing"

    @property
    def remedy(self) -> str:
        """What to write, where the list is what lacks; empty where the part does."""
        if self is Missing.NO_MARKING:
            return "Copy the nameplate into `marking`, or write `none` where the part bears none."
        if self is Missing.UNREAD:
            return (
                "Compare with the nameplate and copy it whole into `marking`, such as II 2G Ex db "
                "IIC T4 Gb."
            )
        return ""

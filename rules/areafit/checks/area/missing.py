"""Why a nameplate does not answer a hazard."""

from areafit.term import Term


class Missing(Term):
    """Why no code of the nameplate answers a hazard."""

    NO_MARKING = "no marking is stated"
    UNMARKED = "the part is said to bear no marking"
    UNREAD = "the marking could not be read whole"
    OTHER_HAZARD = "nothing on the nameplate is for this hazard"
    ASSOCIATED = "the nameplate protects outgoing circuits only, not the housing"

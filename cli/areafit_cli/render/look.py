"""How a report is to look: all that a renderer may know of where its text goes."""

from areafit.values import Frozen


class Look(Frozen):
    """Width in columns, whether colour may be used, and whether only open points are wanted.

    `brief` is for the answer to a question: its cautions stand in one paragraph.
    """

    width: int = 100
    colour: bool = False
    quiet: bool = False
    brief: bool = False


FILE = Look()

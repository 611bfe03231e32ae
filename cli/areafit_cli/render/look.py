"""How a report is to look: all that a renderer may know of where its text goes."""

from areafit.frozen import frozen


@frozen
class Look:
    """Width in columns, whether colour may be used, and whether only open points are wanted."""

    width: int = 100
    colour: bool = False
    quiet: bool = False


FILE = Look()

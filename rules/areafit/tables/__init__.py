"""Tables of substances, dusts, materials and chemicals; every value with its source.

`Tables.shipped()` is the way in. Row types live in the module of their domain.
"""

from areafit.tables.load import TableError
from areafit.tables.sources import Cited, LaxerValue
from areafit.tables.table_set import Tables

__all__ = ["Cited", "LaxerValue", "TableError", "Tables"]

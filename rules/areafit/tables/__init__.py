"""Tables of substances, dusts, materials and chemicals; every value with its source.

`Tables.shipped()` is the way in. Row types live in the module of their table.
"""

from areafit.tables.cited import Cited, Laxer, Problem, TableError
from areafit.tables.table_set import Tables

__all__ = ["Cited", "Laxer", "Problem", "TableError", "Tables"]

"""Let the fuzz tests share targets and lists without being a package."""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))

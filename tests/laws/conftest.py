"""Lets the laws import the strategies beside them (`from trees import rows`)."""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))

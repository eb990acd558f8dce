import sys
from pathlib import Path

# the random seasons of the other proofs serve here too
sys.path.insert(0, str(Path(__file__).parents[1] / "optimum"))

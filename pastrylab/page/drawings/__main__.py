"""Write the drawings of the tables of defects into a folder: python -m pastrylab.page.drawings lessons/pictures"""

import sys
from pathlib import Path

from pastrylab.page.drawings import DEFECTS, file_name

for drawing in DEFECTS.values():
    Path(sys.argv[1], file_name(drawing)).write_text(drawing.svg, encoding="utf-8")

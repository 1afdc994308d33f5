"""As root, by a Python that has pastrylab: the folders of a class, or the folder of one account of this machine.

python as_root.py /srv/pastrylab teachers            makes the folders and fills the course
python as_root.py /srv/pastrylab teachers ACCOUNT    makes a student's folder; an instructor's account needs none
"""

import sys
from pathlib import Path

from pastrylab.desk import shared

if __name__ == "__main__":
    home, teachers, *accounts = sys.argv[1:]
    if not accounts:
        shared.lay_ground(Path(home), teachers)
    for account in accounts:
        shared.room_for(Path(home) / "students", account, teachers)

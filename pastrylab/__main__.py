"""`python -m pastrylab`: the command line."""

import sys

from pastrylab.desk.commands import main

if __name__ == "__main__":
    sys.exit(main())

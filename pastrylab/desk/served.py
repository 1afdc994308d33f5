"""A server, started without what no lesson asks for: ``python -m pastrylab.desk.served jupyterlab ...``."""

import runpy
import sys

# A server spends most of its start on this grammar of addresses in foreign letters: jsonschema takes it where it is
# there, does without where it is not, and nothing here asks for such an address.
SPARE = "rfc3987_syntax"


def serve(module: str) -> None:
    """Become a server: run a module, its arguments those of this process."""
    sys.modules.setdefault(SPARE, None)  # the import system's own way to say that there is no such module
    runpy.run_module(module, run_name="__main__", alter_sys=True)


if __name__ == "__main__":
    serve(sys.argv.pop(1))

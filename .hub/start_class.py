"""Start the servers of a class ahead of it: python .hub/start_class.py list.txt, one account a line.

Twenty who log in at the same minute wait for each other; whose server is up already does not wait. Asks the hub with the
token in PASTRYLAB_CLASS_TOKEN, at PASTRYLAB_ADDRESS.
"""

import os
import sys
import time
import urllib.error
import urllib.request


def start(address: str, token: str, account: str) -> str:
    """Ask the hub for one account's server; what came of it, in words."""
    headers = {"Authorization": f"token {token}"}
    for path in (f"users/{account}", f"users/{account}/server"):
        asked = urllib.request.Request(f"{address}/hub/api/{path}", method="POST", headers=headers, data=b"")
        try:
            urllib.request.urlopen(asked, timeout=300)
        except urllib.error.HTTPError as error:
            if path.endswith("server"):
                return "is up already" if error.code == 400 else f"refused ({error.code} {error.reason})"
            if error.code != 409:  # 409: the hub knows this account
                return f"refused ({error.code} {error.reason})"
    return "starts"


def main() -> int:
    token = os.environ.get("PASTRYLAB_CLASS_TOKEN")
    if len(sys.argv) != 2 or not token:
        print("A file with an account a line is needed, and PASTRYLAB_CLASS_TOKEN as the hub was started with.")
        return 2
    address = os.environ.get("PASTRYLAB_ADDRESS", "http://127.0.0.1:8000").rstrip("/")
    with open(sys.argv[1], encoding="utf-8") as file:
        accounts = [line.strip() for line in file if line.strip()]
    refused = 0
    for account in accounts:
        said = start(address, token, account)
        refused += said.startswith("refused")
        print(f"{account} {said}")
        time.sleep(2)  # one after another: together they would take longer
    return 1 if refused else 0


if __name__ == "__main__":
    raise SystemExit(main())

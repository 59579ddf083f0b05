"""kate.py: Kate without a window, in a home as the page on Kate says; BAND is the file, and knotwright is on the path.

What is left for a person are two clicks: the plugin is switched on, and the server may be started.
"""

import json
import os
import pathlib
import shutil
import signal
import subprocess
import sys
import time

# Far longer than ever seen, as the machine may be busy with something else.
PATIENCE = 120
home, here = pathlib.Path(os.environ["HOME"]), pathlib.Path(__file__).parent
trace, run = home / "trace.jsonl", home / "run"
server = home / "bin/knotwright"


def prepare():
    """Puts a server that is written down before the real one, and clicks twice."""
    real = shutil.which("knotwright")
    server.parent.mkdir()
    server.write_text(f'#!/bin/sh\nexec "{sys.executable}" "{here / "record.py"}" "{trace}" "{real}" "$@"\n')
    server.chmod(0o755)
    run.mkdir(mode=0o700)
    config = home / ".config/katerc"
    config.write_text(
        "[Kate Plugins]\nlspclientplugin=true\n\n"
        f"[lspclient]\nAllowedServerCommandLines={server} serve\n"
    )


def messages():
    """What was said so far."""
    lines = trace.read_text().splitlines(True) if trace.exists() else []
    return [json.loads(line) for line in lines if line.endswith("\n")]


def found():
    """What the server has said of the file."""
    of_server = [one["message"] for one in messages() if one["from"] == "server"]
    published = [one["params"] for one in of_server if one.get("method") == "textDocument/publishDiagnostics"]
    return [finding for one in published for finding in one["diagnostics"]]


def wait(what, holds):
    end = time.monotonic() + PATIENCE
    while not holds():
        if time.monotonic() > end:
            sys.exit(f"missing: {what}; {trace.read_text() if trace.exists() else 'no server was started'}")
        time.sleep(0.1)


prepare()
variables = {
    "PATH": f"{server.parent}:{os.environ['PATH']}",
    "QT_QPA_PLATFORM": "offscreen",
    "XDG_RUNTIME_DIR": str(run),
}
line = ["dbus-run-session", "--", "kate", "--new", "--startanon", os.environ["BAND"]]
with open(home / "kate.log", "w") as log:
    kate = subprocess.Popen(
        line, env=os.environ | variables, stdout=log, stderr=log, start_new_session=True
    )
    try:
        wait("what is wrong with the file", found)
    finally:
        os.killpg(kate.pid, signal.SIGTERM)
        kate.wait()
finding = found()[0]
if finding["range"]["start"]["line"] != 8 or "kelp" not in finding["message"]:
    sys.exit(f"missing: the promise at its line: {finding}")
opened = [one["message"]["params"]["textDocument"] for one in messages() if one["message"].get("method") == "textDocument/didOpen"]
if [one["languageId"] for one in opened] != ["knotwright"]:
    sys.exit(f"missing: the name of the language, which comes of the colors: {opened}")
print("RESULT ok")

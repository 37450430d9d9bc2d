"""Asks for health and metrics as collectors do, with parsers of the Prometheus client library.

The only argument is the address of the port, such as http://127.0.0.1:9311. Prints one line of JSON for each sample of
each format: format, family, type, help, name, labels, value. Ends with an error where a parser objects.
"""

import json
import sys
import urllib.request

from prometheus_client import parser
from prometheus_client.openmetrics import parser as open_metrics

FORMATS = [
    ("plain", None, "text/plain; version=0.0.4; charset=utf-8", parser),
    (
        "open",
        "application/openmetrics-text;version=1.0.0,text/plain;version=0.0.4;q=0.5",
        "application/openmetrics-text; version=1.0.0; charset=utf-8",
        open_metrics,
    ),
]


def get(path, accept=None):
    request = urllib.request.Request(sys.argv[1] + path)
    if accept:
        request.add_header("Accept", accept)
    with urllib.request.urlopen(request, timeout=20) as answer:
        return answer.headers["Content-Type"], answer.read().decode("utf-8")


kind, health = get("/health")
assert kind == "application/json", kind
assert isinstance(json.loads(health)["alive"], bool), health

for name, accept, expected, reader in FORMATS:
    kind, text = get("/metrics", accept)
    assert kind == expected, kind
    for family in reader.text_string_to_metric_families(text):
        for sample in family.samples:
            print(
                json.dumps(
                    [
                        name,
                        family.name,
                        family.type,
                        family.documentation,
                        sample.name,
                        sample.labels,
                        repr(sample.value),
                    ],
                    sort_keys=True,
                )
            )

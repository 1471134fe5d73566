#!/bin/sh
# Plants faults in the core, one at a time, and says which of them no test notices: one shard of all, for long runs.
# docs/testing.md says how to divide the work and keeps the results.
set -eu
cd "$(dirname "$0")/.."

usage() {
    echo "Usage: sh scripts/mutants.sh SHARD/OF [PATH]...     such as 1/8 core/src/health" >&2
    exit 2
}

case ${1:-} in
    [1-9]*/[1-9]*) ;;
    *) usage ;;
esac
exec python3 .ci/mutants.py "$@"

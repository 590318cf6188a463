#!/bin/sh
# Carries out a study in parts on a queue of this machine (task-spooler, command tsp), and merges what they found.
#
#   scripts/parts-on-queue.sh PARTS OUT spread tolerances --samples 400
#
# OUT is the whole study; its parts lie beside it, OUT-part-1 and so on. JOBS: how many run at a time (2). BUSWAKE: the
# command, where it is not that of this checkout. Ends as the merge does.
set -eu

if [ $# -lt 3 ]; then
  echo 'usage: scripts/parts-on-queue.sh PARTS OUT STUDY ARGUMENTS…' >&2
  exit 2
fi
parts=$1
out=$2
shift 2
case $parts in
'' | *[!0-9]* | 0)
  echo "PARTS: found $parts, expected a whole number above 0" >&2
  exit 2
  ;;
esac
command -v tsp >/dev/null 2>&1 || {
  echo 'No tsp found. On Debian or Ubuntu, as root: apt-get install -y task-spooler' >&2
  exit 3
}

buswake=${BUSWAKE:-$(cd "$(dirname "$0")" && pwd)/buswake.mjs}
# A queue of its own, which ends with the script: it meets no other one of this machine.
TMPDIR=$(mktemp -d)
TS_SOCKET=$TMPDIR/queue
export TMPDIR TS_SOCKET
trap 'tsp -K || true; rm -rf "$TMPDIR"' EXIT
trap 'exit 130' INT TERM

tsp -S "${JOBS:-2}"
jobs=''
k=1
while [ "$k" -le "$parts" ]; do
  jobs="$jobs $(tsp node "$buswake" "$@" --part "$k/$parts" --out "$out-part-$k" --workers 1)"
  k=$((k + 1))
done

k=1
for job in $jobs; do
  code=0
  tsp -w "$job" || code=$?
  if [ "$code" -ne 0 ]; then
    echo "part $k of $parts ended with $code:" >&2
    tsp -c "$job" >&2 || true
    exit "$code"
  fi
  echo "part $k of $parts done" >&2
  k=$((k + 1))
done

set -- "$@" --merge
k=1
while [ "$k" -le "$parts" ]; do
  set -- "$@" "$out-part-$k"
  k=$((k + 1))
done
code=0
node "$buswake" "$@" --out "$out" || code=$?
exit "$code"

#!/bin/sh
# Carries out a study in parts on a queue, and merges what they found.
#
#   scripts/parts-on-queue.sh PARTS OUT spread tolerances --samples 400
#
# OUT is the whole study; its parts lie beside it, OUT-part-1 and so on. QUEUE: tsp (task-spooler, on this machine) or slurm.
# JOBS: how many run at a time on a queue of this machine (2). BUSWAKE: the command, where it is not that of this checkout.
# TMPDIR: for what the jobs print; machines of a cluster must share it, as they must OUT. Ends as the merge does.
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
here=$(cd "$(dirname "$0")" && pwd)
case ${QUEUE:=tsp} in
tsp | slurm) . "$here/queue/$QUEUE.sh" ;;
*)
  echo "QUEUE: found $QUEUE, expected tsp or slurm" >&2
  exit 2
  ;;
esac

buswake=${BUSWAKE:-$here/buswake.mjs}
jobs=''
TMPDIR=$(mktemp -d)
export TMPDIR
trap 'queue_end || true; rm -rf "$TMPDIR"' EXIT
trap 'exit 130' INT TERM

queue_begin "${JOBS:-2}"
k=1
while [ "$k" -le "$parts" ]; do
  jobs="$jobs $(queue_add node "$buswake" "$@" --part "$k/$parts" --out "$out-part-$k" --workers 1)"
  k=$((k + 1))
done

k=1
for job in $jobs; do
  code=0
  queue_wait "$job" || code=$?
  if [ "$code" -ne 0 ]; then
    echo "part $k of $parts ended with $code:" >&2
    queue_told "$job" >&2 || true
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

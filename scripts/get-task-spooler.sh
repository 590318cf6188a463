#!/bin/sh
# Puts in place the queue that tests of studies in parts look for (Debian: task-spooler, command tsp). On Debian as root it
# installs it; where it cannot be had nothing stops, and those tests are skipped.
set -u

command -v tsp >/dev/null 2>&1 && exit 0
if command -v apt-get >/dev/null 2>&1 && [ "$(id -u)" = 0 ]; then
  apt-get update || true
  DEBIAN_FRONTEND=noninteractive apt-get install -y --no-install-recommends task-spooler || true
fi
command -v tsp >/dev/null 2>&1 || echo 'No tsp found (Debian: task-spooler): tests of studies on a queue are skipped.'

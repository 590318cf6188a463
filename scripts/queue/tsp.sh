# A queue of task-spooler (command tsp), which ends with the script: it meets no other one of this machine.

queue_begin() {
  command -v tsp >/dev/null 2>&1 || {
    echo 'No tsp found. On Debian or Ubuntu, as root: apt-get install -y task-spooler' >&2
    return 3
  }
  TS_SOCKET=$TMPDIR/queue
  export TS_SOCKET
  tsp -S "$1"
}

# Prints the name of the job.
queue_add() {
  tsp "$@"
}

# Ends as the job does.
queue_wait() {
  tsp -w "$1"
}

queue_told() {
  tsp -c "$1"
}

queue_end() {
  tsp -K
}

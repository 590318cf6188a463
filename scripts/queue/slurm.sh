# The queue of the Slurm cluster that sbatch reaches; how many jobs run at a time is the cluster's.

queue_begin() {
  command -v sbatch >/dev/null 2>&1 || {
    echo 'No sbatch found. For a cluster of this machine alone: scripts/slurm-on-one-machine.sh' >&2
    return 3
  }
  printf '#!/bin/sh\nexec "$@"\n' >"$TMPDIR/job.sh"
}

# Prints the name of the job.
queue_add() {
  sbatch --parsable --job-name=buswake --output="$TMPDIR/%j.log" "$TMPDIR/job.sh" "$@"
}

# Ends as the job does.
queue_wait() {
  while squeue --noheader --jobs="$1" 2>/dev/null | grep -q .; do sleep 1; done
  code=$(scontrol show job "$1" | sed -n 's/.*ExitCode=\([0-9]*\):.*/\1/p')
  return "${code:-1}"
}

queue_told() {
  cat "$TMPDIR/$1.log"
}

# What was not yet begun is nobody's.
queue_end() {
  squeue --noheader --name=buswake --me --format=%i 2>/dev/null | while read -r job; do
    case " $jobs " in *" $job "*) scancel "$job" ;; esac
  done
}

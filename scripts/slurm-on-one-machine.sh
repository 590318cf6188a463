#!/bin/sh
# Runs a command with a Slurm cluster of this machine alone, and ends the cluster with it:
#
#   scripts/slurm-on-one-machine.sh env QUEUE=slurm scripts/parts-on-queue.sh 4 out/whole spread tolerances --samples 40
#
# As root, with slurm-wlm and munge installed (Debian: apt-get install -y slurm-wlm munge). Configuration, keys and logs lie in a
# folder of its own; daemons of another cluster of this machine are not met. By hand: no test starts it.
set -eu

if [ $# -eq 0 ]; then
  echo 'usage: scripts/slurm-on-one-machine.sh COMMAND ARGUMENTS…' >&2
  exit 2
fi
for needed in munged mungekey slurmctld slurmd sinfo; do
  command -v "$needed" >/dev/null 2>&1 || {
    echo "No $needed found. On Debian or Ubuntu, as root: apt-get install -y slurm-wlm munge" >&2
    exit 3
  }
done

dir=$(mktemp -d)
munge_pid='' control_pid='' node_pid=''
end() {
  for pid in $node_pid $control_pid $munge_pid; do kill "$pid" 2>/dev/null || true; done
  wait
  rm -rf "$dir"
}
trap end EXIT
trap 'exit 130' INT TERM
chmod 755 "$dir"
mkdir -m 755 "$dir/munge" "$dir/state" "$dir/spool"

mungekey --create --keyfile="$dir/munge/key"
munged --foreground --force --key-file="$dir/munge/key" --socket="$dir/munge/socket" --pid-file="$dir/munge/pid" \
  --seed-file="$dir/munge/seed" --log-file="$dir/munge/log" >"$dir/munged.log" 2>&1 &
munge_pid=$!

host=$(hostname -s)
cat >"$dir/slurm.conf" <<CONF
ClusterName=one
SlurmctldHost=$host(127.0.0.1)
SlurmUser=root
SlurmctldPort=${PORT:-26817}
SlurmdPort=$((${PORT:-26817} + 1))
AuthType=auth/munge
AuthInfo=socket=$dir/munge/socket
CredType=cred/munge
ProctrackType=proctrack/pgid
TaskPlugin=task/none
SwitchType=switch/none
MpiDefault=none
SelectType=select/cons_tres
SelectTypeParameters=CR_Core
AccountingStorageType=accounting_storage/none
JobAcctGatherType=jobacct_gather/none
ReturnToService=2
StateSaveLocation=$dir/state
SlurmdSpoolDir=$dir/spool
SlurmctldPidFile=$dir/slurmctld.pid
SlurmdPidFile=$dir/slurmd.pid
NodeName=$host NodeAddr=127.0.0.1 CPUs=$(nproc) State=UNKNOWN
PartitionName=main Nodes=$host Default=YES MaxTime=INFINITE State=UP
CONF
SLURM_CONF=$dir/slurm.conf
export SLURM_CONF

slurmctld -D -f "$SLURM_CONF" >"$dir/slurmctld.log" 2>&1 &
control_pid=$!
slurmd -D -f "$SLURM_CONF" >"$dir/slurmd.log" 2>&1 &
node_pid=$!

waited=0
until [ "$(sinfo --noheader --format=%t 2>/dev/null | head -n 1)" = idle ]; do
  waited=$((waited + 1))
  if [ "$waited" -gt 60 ]; then
    echo 'The cluster did not come up within a minute:' >&2
    tail -n 5 "$dir/munged.log" "$dir/munge/log" "$dir/slurmctld.log" "$dir/slurmd.log" >&2
    exit 1
  fi
  sleep 1
done
sinfo >&2

code=0
"$@" || code=$?
exit "$code"

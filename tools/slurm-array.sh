#!/usr/bin/env bash
# Prints the songs of a catalogue as one Slurm job array, and tells of all of them at the end. Usage: slurm-array.sh FOLDER COMMAND...
# Each folder below FOLDER holds one song's chain. COMMAND runs drumprint on every machine; the folder is one that all machines share.
#   sbatch reads a line of jobs.txt for each task, so a song is one task: what fails is told, and the same script again does only that.
#   Options for sbatch (partition, memory, machines) go in SBATCH_OPTIONS.
# With --here as the first word it first starts Slurm on this one machine, as root, with Debian's packages slurmctld, slurmd, slurm-client and munge,
# prints once by the array and once without it, and holds the bytes against each other. For that no song may have prints yet.
set -euo pipefail
here=
[ "${1-}" = --here ] && here=yes && shift
catalogue=$1
shift
cd "$catalogue"
[ "$(ls -d ./*/ | wc -l)" -gt 0 ] || { echo "$catalogue holds no folder of a song."; exit 2; }

if [ -n "$here" ]; then
  ls -d ./*/prints >/dev/null 2>&1 && { echo "--here prints every song twice, and $catalogue has prints already: take a copy without them."; exit 2; }
  conf=$(mktemp -d)
  stop() {
    for name in slurmctld slurmd munged; do [ -f "$conf/$name.pid" ] && kill "$(cat "$conf/$name.pid")" 2>/dev/null; done
    sleep 1
    rm -rf "$conf"
  }
  trap stop EXIT
  name=$(hostname -s)
  mkdir -p "$conf/state" "$conf/spool"
  dd if=/dev/urandom bs=1 count=1024 of="$conf/munge.key" 2>/dev/null
  chmod 700 "$conf" && chmod 400 "$conf/munge.key"
  munged --force --key-file="$conf/munge.key" --socket="$conf/munge.socket" --pid-file="$conf/munged.pid" --log-file="$conf/munged.log" --seed-file="$conf/munge.seed"
  cat >"$conf/slurm.conf" <<C
ClusterName=one
SlurmctldHost=$name(127.0.0.1)
AuthType=auth/munge
AuthInfo=socket=$conf/munge.socket
SlurmUser=root
SlurmctldPidFile=$conf/slurmctld.pid
SlurmdPidFile=$conf/slurmd.pid
StateSaveLocation=$conf/state
SlurmdSpoolDir=$conf/spool
SlurmctldLogFile=$conf/slurmctld.log
SlurmdLogFile=$conf/slurmd.log
ProctrackType=proctrack/pgid
TaskPlugin=task/none
JobAcctGatherType=jobacct_gather/none
MpiDefault=none
ReturnToService=2
SelectType=select/cons_tres
SelectTypeParameters=CR_Core
NodeName=$name NodeAddr=127.0.0.1 CPUs=$(nproc) State=UNKNOWN
PartitionName=songs Nodes=$name Default=YES MaxTime=INFINITE State=UP
C
  export SLURM_CONF="$conf/slurm.conf"
  slurmctld
  slurmd
  for _ in $(seq 30); do sinfo -h -o %t 2>/dev/null | grep -qE 'idle|mix' && break; sleep 1; done
  sinfo
fi

# One line for each song, and one task for each line. A task may use as many threads as it is given; the bytes do not depend on it.
"$@" print ./*/ --quiet --list-jobs >jobs.txt
count=$(wc -l <jobs.txt)
cat >task.sh <<'T'
#!/usr/bin/env bash
drumprint() { eval "$DRUMPRINT \"\$@\""; }
eval "$(sed -n "${SLURM_ARRAY_TASK_ID}p" jobs.txt)"
T
DRUMPRINT=$(printf '%q ' "$@")
export DRUMPRINT
begun=$(date +%s)
# shellcheck disable=SC2086
sbatch --wait --array="1-$count" --output='song-%a.log' --export=ALL ${SBATCH_OPTIONS-} task.sh || echo "A song was not done; its log says why."
echo "The array took $(($(date +%s) - begun)) s for $count songs."

# The same command sees what is done, does what is not, and tells of all.
code=0
"$@" print ./*/ || code=$?

if [ -n "$here" ]; then
  sums() { find . -path '*/prints/*' \( -name '*.wav' -o -name '*.ticket.json' \) -exec sha256sum {} + | sort -k2; }
  sums >"$conf/array.sums"
  rm -rf ./*/prints ./*/.drumprint
  "$@" print ./*/ --quiet || true
  if [ -s "$conf/array.sums" ] && sums | cmp - "$conf/array.sums"; then
    echo "$(wc -l <"$conf/array.sums") files are the same to the last byte as printed without the array."
  else
    echo "The array and one machine do not give the same bytes."
    exit 1
  fi
fi
exit "$code"

#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# A survey on two hosts, by `mpirun --hostfile` over ssh, comes to the bytes of
# one process; also after one of the hosts was lost.  The hosts are network
# namespaces of this machine, with a cable between them and names, addresses and
# ssh servers of their own; they share its disk, as machines share a network
# disk.  As root, where iproute2 and openssh-server are, with a command built
# with MPI=1:
#   make MPI=1 && DEW_BUILD=build/gcc-mpi sh tests/survey/hosts.sh
set -u
here=$(cd "$(dirname "$0")/../.." && pwd)
. "$(dirname "$0")/../support/says.sh"
. "$here/tests/survey/same.sh"
skip() {
    echo "skip two hosts: $*"
    exit 77
}
command -v mpirun >/dev/null || skip "there is no mpirun (openmpi-bin)"
ldd "$D" | grep -q libmpi || skip "this command is not built with MPI=1"
[ "$(id -u)" = 0 ] || skip "only root makes network namespaces"
command -v ip >/dev/null || skip "there is no ip (iproute2)"
sshd=$(command -v sshd || echo /usr/sbin/sshd)
[ -x "$sshd" ] || skip "there is no sshd (openssh-server)"
a=alder$$ b=birch$$
ip netns add $a 2>log || skip "no network namespaces: $(cat log)"
end() {
    for host in $a $b; do
        for pid in $(ip netns pids $host 2>/dev/null); do kill "$pid" 2>/dev/null; done
        ip netns del $host 2>/dev/null
    done
    rm -rf "$work"
}
trap end EXIT

# ---- two hosts ------------------------------------------------------------------------
ip netns add $b
ip link add cable netns $a type veth peer name cable netns $b || skip "no cable between them"
ssh-keygen -q -t ed25519 -N "" -f key
ssh-keygen -q -t ed25519 -N "" -f host
mkdir -p /run/sshd
on() { # HOST COMMAND: there, under its name
    ip netns exec "$1" unshare --uts sh -c "hostname ${1%"$$"} && exec $2"
}
n=0
for host in $a $b; do
    n=$((n + 1))
    ip -n $host addr add 10.77.0.$n/24 dev cable
    ip -n $host link set cable up
    ip -n $host link set lo up
    on $host "$sshd -f /dev/null -o ListenAddress=10.77.0.$n -o HostKey=$work/host \
-o AuthorizedKeysFile=$work/key.pub -o PermitRootLogin=prohibit-password \
-o UsePAM=no -o StrictModes=no -o PidFile=none -E $work/sshd.log"
done
printf '10.77.0.1 slots=2\n10.77.0.2 slots=2\n' >hosts
ssh="-i $work/key -o StrictHostKeyChecking=no -o UserKnownHostsFile=$work/known -o LogLevel=ERROR"
n=0
until on $a "ssh $ssh 10.77.0.2 true" 2>log || [ $n = 20 ]; do
    n=$((n + 1))
    sleep 0.2
done
says "the other host lets us in, and has its name" test "$(on $a "ssh $ssh 10.77.0.2 hostname")" = birch
ranks() { # ARG...: of alder two ranks, of birch two; messages by tcp alone
    on $a "timeout 120 mpirun --allow-run-as-root --oversubscribe --hostfile hosts -n 4 \
--mca plm_rsh_args '$ssh' --mca btl tcp,self --wdir $work sh run $*" >out 2>err </dev/null
}
cat >run <<END
hostname >>"where-\$OMPI_COMM_WORLD_RANK"
exec $D survey "\$@"
END

# ---- surveys ---------------------------------------------------------------------------
cat >house.yaml <<'END'
run: {steps_per_hour: 1}
weather: {place: 722020}
house: {floor_area: 1830 ft2, bedrooms: 3, airtightness: 1.3 ach50}
limits: {too_humid: 60 %, too_dry: 30 %}
options:
- name: now
- name: air
  ventilator: {core: exhaust_only, power: 12 W}
END
cat >plan.yaml <<'END'
scenario: house.yaml
vary:
- {key: house.airtightness, range: 0.6 to 3 ach50, steps: 50}
- {key: people.schedule, values: [retired, work_and_school]}
- {key: limits.too_humid, values: [60 %, 25 %]}
places: [722020, Fargo ND]
END
ends "one process" 0 survey plan.yaml --out one --threads 1
ranks plan.yaml --out two
says "four ranks on two hosts: exit 0" test $? = 0
says "ranks 2 and 3 were on the other" test "$(cat where-2 where-3 | tr '\n' ' ')" = "birch birch "
says "the first two were not" test "$(cat where-0 where-1 | tr '\n' ' ')" = "alder alder "
says "each that marches has its file" test -s two/rows-0001-000 -a -s two/rows-0002-000 -a -s two/rows-0003-000
says "the same bytes" same two

ranks plan.yaml --out lost &
job=$!
n=0
while [ ! -s lost/rows-0003-000 ] && kill -0 $job 2>/dev/null && [ $n -lt 1000 ]; do
    n=$((n + 1))
    sleep 0.02
done
for pid in $(ip netns pids $b); do kill -KILL "$pid"; done # the host is gone
wait $job
says "a host is lost: exit other than 0" test $? != 0
says "midway" test ! -e lost/march.csv
ends "go on without it" 0 survey plan.yaml --out lost --resume
says "with what is there" grep -q ' of 400 items are there already' out
says "the same after a host was lost" same lost
exit $bad

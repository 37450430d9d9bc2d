#!/usr/bin/env bash
# Runs a program in one network namespace and another in a second one, joined by a cable:
#   two-networks.sh 'FIRST' 'SECOND'
# The first is 10.77.0.1 and the second 10.77.0.2, of 24 bits; with APART=yes the second is 10.78.0.2, so that
# no broadcast of either reaches the other. Ends with the second, by its exit code. Neither sees any other
# network. Exit code 77: this machine lets nobody make namespaces.
# With POOR=FIFO the cable runs through poor-cable.py, whose dice have the seed SEED and which is told by the FIFO how
# poor it is; what it says goes to the file FIFO.said.
set -eu
if [ -z "${TWO_NETWORKS:-}" ]; then
  unshare -Urnm true 2>/dev/null || exit 77
  TWO_NETWORKS=inside exec unshare -Urnm "$0" "$@"
fi
mount -t tmpfs none /run || exit 77
mkdir -p /run/netns
ip netns add second || exit 77
if [ -n "${POOR:-}" ]; then
  ip netns add between
  ip link add cable type veth peer name near netns between
  ip netns exec between ip link add far type veth peer name elbac netns second
else
  ip link add cable type veth peer name elbac netns second || exit 77
fi
ip addr add 10.77.0.1/24 brd + dev cable
ip link set cable up
ip link set lo up
net=10.77.0
[ "${APART:-}" = yes ] && net=10.78.0
ip netns exec second ip addr add "$net.2/24" brd + dev elbac
ip netns exec second ip link set elbac up
ip netns exec second ip link set lo up
if [ "${APART:-}" = yes ]; then
  ip route add 10.78.0.0/24 dev cable
  ip netns exec second ip route add 10.77.0.0/24 dev elbac
fi
relay=
if [ -n "${POOR:-}" ]; then
  poor=$(dirname "$0")/poor-cable.py
  "$poor" plain cable
  ip netns exec second "$poor" plain elbac
  ip netns exec between ip link set near up
  ip netns exec between ip link set far up
  mkfifo "$POOR"
  : > "$POOR.said"
  ip netns exec between "$poor" join near far "$SEED" "$POOR" > "$POOR.said" 2>&1 &
  relay=$!
  until grep -q joined "$POOR.said"; do kill -0 "$relay"; sleep 0.1; done
fi
bash -c "$1" &
first=$!
trap 'kill "$first" $relay 2>/dev/null || true' EXIT
ip netns exec second bash -c "$2"

#!/usr/bin/env python3
# A cable between two network interfaces that loses, delays, doubles and reorders what goes over it, by a seed.
#
#   poor-cable.py plain INTERFACE               makes the sender work out checksums and segments itself
#   poor-cable.py join FIRST SECOND SEED FIFO   passes frames on both ways until it is ended
#
# A line into FIFO changes the cable from then on; it begins as a perfect one:
#
#   poor lose=10 double=5 delay=0..200    each frame, whatever is in it, is lost in so many of a hundred cases, comes
#                                         twice in so many, and is late by so many milliseconds, each for itself: a
#                                         frame that is less late overtakes others
#   perfect                               everything is passed on at once
#   cut                                   nothing is passed on, and what was on its way is gone
#
# Each line is answered on standard output with what the cable did before it. The dice of the two directions are their
# own, so that a frame more in one changes nothing of the other.
import fcntl
import heapq
import os
import random
import select
import signal
import socket
import struct
import sys
import time

EVERYTHING = 3
OWN_FRAME = 4
LONGEST_FRAME = 65536
SIOCETHTOOL = 0x8946
# Of linux/ethtool.h: transmit checksums, scatter and gather, TCP segmentation, generic segmentation and its reverse.
OFFLOADS = (0x17, 0x19, 0x1F, 0x24, 0x2C)


def plain(interface):
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as any_socket:
        for offload in OFFLOADS:
            value = bytearray(struct.pack('II', offload, 0))
            pointer = (memory_address(value))
            request = struct.pack('16sP', interface.encode(), pointer)
            try:
                fcntl.ioctl(any_socket, SIOCETHTOOL, request)
            except OSError as e:
                print(f'{interface}: {offload:#x}: {e}', file=sys.stderr)


def memory_address(buffer):
    import ctypes
    return ctypes.addressof((ctypes.c_char * len(buffer)).from_buffer(buffer))


class Way:
    """One direction."""

    def __init__(self, source, target, dice):
        self.source = source
        self.target = target
        self.dice = dice
        self.counts = dict.fromkeys(('passed', 'lost', 'doubled', 'overtaken'), 0)
        self.last_due = 0.0


class Cable:
    def __init__(self, first, second, seed):
        self.ways = [
            Way(first, second, random.Random(f'{seed} there')),
            Way(second, first, random.Random(f'{seed} back')),
        ]
        self.perfect()
        # Due time, number and what: numbers keep frames in order that are due at once.
        self.under_way = []
        self.number = 0

    def perfect(self):
        self.is_cut = False
        self.lose, self.double, self.delay = 0.0, 0.0, (0.0, 0.0)

    def change(self, words):
        told = ' '.join(
            f'{name} {way.counts[name]}' for way in self.ways for name in way.counts)
        if words[0] == 'poor':
            self.perfect()
            for word in words[1:]:
                name, value = word.split('=')
                if name == 'delay':
                    self.delay = tuple(float(each) / 1000 for each in value.split('..'))
                elif name in ('lose', 'double'):
                    setattr(self, name, float(value) / 100)
                else:
                    raise ValueError(word)
        elif words == ['perfect']:
            self.perfect()
        elif words == ['cut']:
            self.is_cut = True
            self.under_way.clear()
        else:
            raise ValueError(' '.join(words))
        print(f'{" ".join(words)}; before: {told}', flush=True)

    def take(self, way):
        try:
            frame, origin = way.source.recvfrom(LONGEST_FRAME)
        except BlockingIOError:
            return
        if origin[2] == OWN_FRAME:
            return
        if self.is_cut or way.dice.random() < self.lose:
            way.counts['lost'] += 1
            return
        self.send(way, frame)
        if way.dice.random() < self.double:
            way.counts['doubled'] += 1
            self.send(way, frame)

    def send(self, way, frame):
        due = time.monotonic() + way.dice.uniform(*self.delay)
        way.counts['passed'] += 1
        if due < way.last_due:
            way.counts['overtaken'] += 1
        way.last_due = max(due, way.last_due)
        self.number += 1
        heapq.heappush(self.under_way, (due, self.number, way, frame))

    def deliver(self):
        """Passes on what is due; returns in how many seconds the next is."""
        while self.under_way:
            wait = self.under_way[0][0] - time.monotonic()
            if wait > 0:
                return wait
            _, _, way, frame = heapq.heappop(self.under_way)
            try:
                way.target.send(frame)
            except OSError:
                # The interface is down, or its queue is full: a cable loses it too.
                way.counts['lost'] += 1
        return None


def end_of(interface):
    end = socket.socket(socket.AF_PACKET, socket.SOCK_RAW, socket.htons(EVERYTHING))
    end.bind((interface, 0))
    end.setblocking(False)
    return end


def join(first, second, seed, fifo):
    signal.signal(signal.SIGTERM, lambda *_: sys.exit(0))
    cable = Cable(end_of(first), end_of(second), seed)
    # Open for writing too, so that there is no end of file when a writer goes.
    told = os.open(fifo, os.O_RDWR | os.O_NONBLOCK)
    text = b''
    sources = {way.source: way for way in cable.ways}
    print(f'joined; seed {seed}', flush=True)
    while True:
        ready, _, _ = select.select([told, *sources], [], [], cable.deliver())
        for each in ready:
            if each in sources:
                cable.take(sources[each])
            else:
                text += os.read(told, 4096)
                while b'\n' in text:
                    line, text = text.split(b'\n', 1)
                    cable.change(line.decode().split())


if sys.argv[1] == 'plain':
    plain(sys.argv[2])
else:
    join(*sys.argv[2:6])

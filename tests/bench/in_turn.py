"""Runs commands in turn, so that whatever else the machine does falls on all of them alike: in_turn.py ROUNDS COMMAND...
Prints the median wall time of each in milliseconds, one a line."""

import os
import statistics
import sys
import time

WARM_UP = 5


def run_ms(command, nowhere):
    start = time.perf_counter()
    process = os.posix_spawnp(command[0], command, os.environ, file_actions=[
        (os.POSIX_SPAWN_DUP2, nowhere, 0), (os.POSIX_SPAWN_DUP2, nowhere, 1), (os.POSIX_SPAWN_DUP2, nowhere, 2)])
    _, status = os.waitpid(process, 0)
    took = (time.perf_counter() - start) * 1e3
    if status != 0:
        sys.exit("in_turn: this failed: " + " ".join(command))
    return took


def main():
    rounds = int(sys.argv[1])
    commands = [argument.split() for argument in sys.argv[2:]]
    nowhere = os.open("/dev/null", os.O_RDWR)
    times = [[] for _ in commands]
    for turn in range(WARM_UP + rounds):
        for command, took in zip(commands, times):
            ms = run_ms(command, nowhere)
            if turn >= WARM_UP:
                took.append(ms)
    for took in times:
        print(f"{statistics.median(took):.4f}")


main()

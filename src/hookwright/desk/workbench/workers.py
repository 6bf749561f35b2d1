"""Processes that do the work, each with a bound of time and memory, so that one monstrous manuscript stalls no other.

A worker keeps what it found of the texts it saw last (reports, rows read), so a manuscript goes to the worker that had it before.
One that takes too long is ended and another started in its place; what is told of it is a Told like any other.
"""

import asyncio
import multiprocessing
import os
import threading
import time

from .strings import t
from .told import Told

MEMORY_BYTES = 3_000_000_000  # of address space: a process of this kind reserves about a third of it unused
_START_SECONDS = 60.0
_IDLE_SECONDS, _MOST_SINCE = 0.4, 40  # when garbage is looked for: after so long without work, or so many tasks


class Worker:
    """One process and the pipe to it."""

    def __init__(self, patience: int = 0, memory: int = MEMORY_BYTES):
        self.patience, self.memory = patience, memory  # patience: how readily it gives way to others, 0 to 19
        self.name = ""  # whose work it did last
        self.busy = False
        self.last = 0.0
        self.since = 0.0
        self.doing = ""
        self._start()

    def _start(self) -> None:
        spawn = multiprocessing.get_context("spawn")
        self._pipe, theirs = spawn.Pipe()
        self._process = spawn.Process(target=_work, args=(theirs, self.memory, self.patience), daemon=True, name="hookwright-worker")
        self._process.start()
        theirs.close()
        self._begun = False

    def ask(self, task: str, args: tuple, seconds: float, step=None):
        """The answer of a task; waits for it. step(done, words) is called as the task tells how far it is. TimeoutError, EOFError where
        the process took too long or was ended."""
        if not self._process.is_alive():
            self.end()
            self._start()
        try:
            if not self._begun:  # its start is no part of the time that the task has
                if not self._pipe.poll(_START_SECONDS):
                    raise TimeoutError
                self._pipe.recv()
                self._begun = True
            self._pipe.send((task, args))
            until = time.monotonic() + seconds
            while True:
                if not self._pipe.poll(max(0.0, until - time.monotonic())):
                    raise TimeoutError
                what, value = self._pipe.recv()
                if what != "step":
                    return what, value
                if step is not None:
                    step(*value)
        except (TimeoutError, EOFError, OSError):
            self.end()
            raise

    def stop(self) -> None:
        """Ends the process in the middle of its work; whoever waits for it sees that it is gone."""
        self._process.kill()

    def end(self) -> None:
        """Ends the process; the next `ask` starts another."""
        self._process.kill()
        self._process.join(5)
        self._pipe.close()


class Pool:
    """So many workers, started when they are needed."""

    def __init__(self, most: int, patience: int = 0, memory: int = MEMORY_BYTES):
        self.most, self.patience, self.memory = most, patience, memory
        self.workers: list[Worker] = []
        self._free = asyncio.Condition()
        self._ended = False

    async def warm(self) -> None:
        """Starts the first worker and lets it load what it needs, so that the first keystroke need not wait."""
        try:
            await self.run("", "ready", (), seconds=_START_SECONDS)
        except Told:
            pass

    async def run(self, name: str, task: str, args: tuple, *, seconds: float, step=None):
        """What the task gives. name: of the manuscript, whose worker is taken where it is free. Told where it took too long or too much."""
        worker = await self._take(name)
        worker.doing, worker.since = name, time.monotonic()
        try:
            call = asyncio.get_running_loop().run_in_executor(None, worker.ask, task, args, seconds, step)
            try:
                what, value = await asyncio.shield(call)
            except asyncio.CancelledError:
                worker.stop()  # nobody waits for it any more
                await asyncio.wait([call])
                call.exception()
                raise
        except TimeoutError:
            raise Told(503, "too-long", t("too-long-to-check", seconds=round(seconds))) from None
        except (EOFError, OSError):
            raise Told(503, "too-big", t("too-big-to-check")) from None
        finally:
            worker.last, worker.name, worker.doing = time.monotonic(), name, ""
            await self._give_back(worker)
        if what == "told":
            raise Told(*value[:3], **value[3])
        return value

    async def _take(self, name: str) -> Worker:
        async with self._free:
            while True:
                idle = [worker for worker in self.workers if not worker.busy]
                mine = [worker for worker in idle if worker.name == name]
                if mine or idle and len(self.workers) >= self.most:
                    worker = mine[0] if mine else min(idle, key=lambda worker: worker.last)
                elif len(self.workers) < self.most:
                    worker = next((worker for worker in idle if not worker.name), None)
                    if worker is None:
                        worker = Worker(self.patience, self.memory)
                        self.workers.append(worker)
                else:
                    await self._free.wait()
                    continue
                worker.busy = True
                return worker

    async def _give_back(self, worker: Worker) -> None:
        async with self._free:
            worker.busy = False
            self._free.notify_all()

    def end(self) -> None:
        for worker in self.workers:
            worker.end()
        self.workers.clear()


def _work(pipe, memory: int, patience: int) -> None:
    """What a worker's process does: one task after the other until the server is gone."""
    import signal

    signal.signal(signal.SIGINT, signal.SIG_IGN)  # Ctrl-C is for the server, which then ends its workers
    for name in ("OPENBLAS_NUM_THREADS", "OMP_NUM_THREADS", "MKL_NUM_THREADS"):
        os.environ.setdefault(name, "1")
    try:
        import resource

        resource.setrlimit(resource.RLIMIT_AS, (memory, memory))
        resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
    except (ImportError, ValueError, OSError):
        pass  # a system without such bounds: that of time stays
    if patience and hasattr(os, "nice"):
        os.nice(patience)
    threading.Thread(target=_end_with, args=(os.getppid(),), daemon=True).start()
    import gc

    from .tasks import answer

    gc.disable()  # garbage is looked for when she pauses, not while she waits
    pipe.send("begun")
    since = 0
    while True:
        try:
            if since and (since > _MOST_SINCE or not pipe.poll(_IDLE_SECONDS)):
                gc.collect()
                since = 0
            task, args = pipe.recv()
            since += 1
        except (EOFError, OSError, MemoryError):
            return
        try:
            pipe.send(answer(task, args, lambda done, words: pipe.send(("step", (done, words)))))
        except (BrokenPipeError, EOFError, OSError):
            return


def _end_with(server: int) -> None:
    """Ends this process, whatever it is working at, once the server that started it is gone."""
    while os.getppid() == server:
        time.sleep(2)
    os._exit(1)

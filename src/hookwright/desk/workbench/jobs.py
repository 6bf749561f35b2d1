"""Long work with its progress: asked for, looked at now and then, stopped, and its file fetched."""

import asyncio
import secrets
import shutil
import tempfile
from dataclasses import dataclass, field
from pathlib import Path

from .strings import t
from .told import Told

MOST_KEPT = 12
SECONDS = 600.0


@dataclass
class Job:
    """state: "running", "done", "failed" or "cancelled"; done: from 0 to 1; file and its name once it is done."""

    id: str
    state: str = "running"
    done: float = 0.0
    words: str = ""
    file: Path | None = None
    name: str = ""
    kind: str = "application/octet-stream"
    task: asyncio.Task | None = field(default=None, repr=False)

    def as_dict(self) -> dict:
        return {"id": self.id, "state": self.state, "done": round(self.done, 3), "words": self.words, "name": self.name}


class Jobs:
    """All jobs of one start of the server; their files lie in a folder of their own and go with it."""

    def __init__(self, pool):
        self.pool, self._jobs = pool, {}
        self._home = Path(tempfile.mkdtemp(prefix="hookwright-"))

    def begin(self, name: str, asked: dict, file_name: str, kind: str) -> Job:
        """Makes what is asked for (see output.make) of a manuscript into one file."""
        for old in [job for job in self._jobs.values() if job.state != "running"][: max(0, len(self._jobs) - MOST_KEPT + 1)]:
            self._drop(old)
        if len(self._jobs) >= MOST_KEPT:
            raise Told(429, "too-many-jobs", t("out-waiting"))
        job = Job(secrets.token_urlsafe(12), words=t("out-waiting"), name=file_name, kind=kind)
        self._jobs[job.id] = job
        job.task = asyncio.create_task(self._run(job, name, asked))
        return job

    async def _run(self, job: Job, name: str, asked: dict) -> None:
        place = self._home / job.id
        loop = asyncio.get_running_loop()

        def step(done: float, words: str) -> None:
            loop.call_soon_threadsafe(self._step, job, done, words)

        try:
            words = await self.pool.run(name, "make", (asked, str(place)), seconds=SECONDS, step=step)
            job.file, job.state, job.done, job.words = place, "done", 1.0, words
        except asyncio.CancelledError:
            job.state, job.words = "cancelled", t("out-cancelled")
            place.unlink(missing_ok=True)
        except Told as told:
            job.state, job.words = "failed", told.words
            place.unlink(missing_ok=True)

    @staticmethod
    def _step(job: Job, done: float, words: str) -> None:
        if job.state == "running":
            job.done, job.words = done, words

    def job(self, id: str) -> Job:
        if id not in self._jobs:
            raise Told(404, "no-such-job", t("no-such-job"))
        return self._jobs[id]

    async def cancel(self, id: str) -> Job:
        job = self.job(id)
        if job.state == "running" and job.task is not None:
            job.task.cancel()
            await asyncio.gather(job.task, return_exceptions=True)
            job.state, job.words = "cancelled", t("out-cancelled")
        return job

    def _drop(self, job: Job) -> None:
        self._jobs.pop(job.id, None)
        if job.file is not None:
            job.file.unlink(missing_ok=True)

    def end(self) -> None:
        for job in self._jobs.values():
            if job.task is not None:
                job.task.cancel()
        shutil.rmtree(self._home, ignore_errors=True)

"""All that one running workbench holds: her folder, what is kept beside it, the workers, the open windows, the jobs."""

import asyncio
import os
from dataclasses import dataclass, field
from pathlib import Path

from .guard import Secrets
from .jobs import Jobs
from .shelf import Shelf
from .store import Store
from .windows import Windows
from .workers import Pool


@dataclass
class Bench:
    """typing: workers for what must answer at once; panels: for what stands beside it; making: for pictures, PDFs and the like."""

    folder: Path
    port: int
    secrets: Secrets
    store: Store
    shelf: Shelf
    typing: Pool
    panels: Pool
    making: Pool
    jobs: Jobs
    windows: Windows = field(default_factory=Windows)
    chores: list = field(default_factory=list)
    going: dict = field(default_factory=dict)  # what is being found of a text, by (version, what), so that nobody has it done twice
    warm: bool = True  # whether a worker is started before it is needed

    @classmethod
    def of(cls, folder: Path, port: int) -> "Bench":
        store = Store(folder)
        making = Pool(1, patience=10)
        several = 2 if (os.cpu_count() or 1) < 4 else 3
        return cls(folder, port, Secrets(), store, Shelf(folder, store), Pool(several), Pool(2, patience=3), making, Jobs(making))

    async def once(self, key: tuple, work):
        """What `work()` gives; where the same is being done already, what that gives. Who asks may go away: it is finished all the same."""
        task = self.going.get(key)
        if task is None:
            task = self.going[key] = asyncio.create_task(work())
            task.add_done_callback(lambda _: self.going.pop(key, None))
        return await asyncio.shield(task)

    async def begin(self) -> None:
        """Starts what goes on by itself: the first workers, and the eye on the folder."""
        from .watching import watch

        self.chores.append(asyncio.create_task(watch(self)))
        if self.warm:
            self.chores.append(asyncio.create_task(self.typing.warm()))

    async def end(self) -> None:
        for chore in (chores := [*self.chores, *self.going.values()]):
            chore.cancel()
        await asyncio.gather(*chores, return_exceptions=True)
        self.jobs.end()
        for pool in (self.typing, self.panels, self.making):
            pool.end()
        self.store.close()

"""Work in one go: nothing looks for garbage while trees and fabrics are built, none of which is any."""

import gc
from contextlib import contextmanager


@contextmanager
def in_one_go():
    """Puts off the cyclic garbage collector within the block, if it is on; a twentieth of the time of reading goes to it otherwise."""
    on = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if on:
            gc.enable()

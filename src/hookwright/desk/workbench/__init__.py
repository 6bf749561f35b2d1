"""The workbench: all that the commands do, in the browser, on her own machine.

`serve(folder)` starts it on the loopback address and stays until it is stopped. Her folder of manuscripts stays the only truth: what the
workbench keeps besides (saved states, where she was in a piece) lies in `.hookwright` in that folder and may be deleted.
"""

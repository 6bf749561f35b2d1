"""One file a check, named after the bad thing; its docstring is its page. The table of them is `hookwright.proof.CHECKS`."""

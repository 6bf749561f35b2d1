"""Which reading begins with which word: kind of token -> name of the reading, as a plain table."""

_TABLE = {
    "act_stitch": "ST OWN",
    "act_number": "NUM",
    "act_chain": "CH",
    "act_loop": "LOOP",
    "act_skip": "SKIP",
    "act_turn": "TURN",
    "act_join": "JOIN ATTACH",
    "act_fasten": "FASTEN",
    "act_do_not": "DONOTJOIN DONOTTURN DONOTFASTEN NOT",
    "act_colour": "CHANGE WITH SHADE COLOUR",
    "act_marker": "PM",
    "act_leave": "LEAVE",
    "act_ring": "MAGIC",
    "act_go": "GO",
    "act_continue": "CONTINUE INTHISWAY",
    "act_alternate": "ALTERNATE",
    "act_working": "WORKING PLACING",
    "act_behind": "BACKFACING",
    "act_space": "SP",
    "act_reach": "REACH",
    "act_begin": "BEG",
    "act_standing": "STANDING",
    "act_place": "PLACE",
    "row_of": "ROW ROUND",
    "act_half": "HALF",
    "act_count_verb": "COUNT",
    "act_place_first": "IN OVER BETWEEN AROUND AT",
    "act_each_first": "NEXT EACH FIRST LAST SAME ORD",
    "act_evenly": "EVENLY",
    "act_move": "MOVE",
    "act_bracket": "( [ { | QO",
    "act_mark": "MARK",
    "act_repeat": "REP FROM",
    "act_again_extent": "ACROSS TOEND TIMES TIMESN X MORE",
    "act_ending": "ENDING",
    "act_dash": "DASH =",
    "act_count_sentence": "YOU HAVE TOTAL",
    "act_described": "DRAW YO HOLD WORKOFF",
    "act_all_in": "ALL BOTH",
}


def acts(reader_class) -> dict:
    """Kind of token -> the reading that begins with it."""
    return {kind: getattr(reader_class, name) for name, kinds in _TABLE.items() for kind in kinds.split()}

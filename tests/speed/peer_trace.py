#!/usr/bin/env python3
"""The same forward trace as a script would do it: sqlite3 for the rows, networkx for the graph. Shares of the inputs and customers.

    python3 peer_trace.py BOOK.db LOT
"""
import sqlite3
import sys
from collections import defaultdict

import networkx

REACHED = """WITH RECURSIVE reached (lot) AS (SELECT id FROM lot WHERE code = ?
    UNION SELECT u.into_lot FROM reached r JOIN use u ON u.from_lot = r.lot) """


def main(path, code):
    db = sqlite3.connect(f"file:{path}?mode=ro", uri=True)
    start = db.execute("SELECT id FROM lot WHERE code = ?", (code,)).fetchone()[0]
    graph = networkx.DiGraph()
    graph.add_node(start)
    for into, source, mass in db.execute(
            REACHED + "SELECT u.into_lot, u.from_lot, u.mass_mg FROM reached r JOIN use u ON u.into_lot = r.lot", (code,)):
        graph.add_edge(source, into, mass=mass)
    reached = {start} | networkx.descendants(graph, start)
    share = {start: 1.0}
    for lot in networkx.topological_sort(graph):
        if lot == start or lot not in reached:
            continue
        inputs = [(source, data["mass"]) for source, _, data in graph.in_edges(lot, data=True)]
        share[lot] = sum(mass * share.get(source, 0.0) for source, mass in inputs) / sum(mass for _, mass in inputs)
    pieces, lines = defaultdict(int), 0
    for partner, n in db.execute(REACHED + "SELECT m.partner, m.pieces FROM reached r JOIN move m ON m.lot = r.lot", (code,)):
        pieces[partner] += n
        lines += 1
    print(f"{len(reached)} lots, {lines} shipping lines, {len(pieces)} customers, {sum(pieces.values())} pieces, "
          f"mean share {sum(share.values()) / len(share):.6f}")


main(sys.argv[1], sys.argv[2])

#!/usr/bin/env bash
# The requests of requests.http, sent by curl one after the other. Made by make.py; change requests.http instead.
#
#     ./requests.sh [http://127.0.0.1:8080]
set -euo pipefail
service=${1:-http://127.0.0.1:8080}
ask() { printf '\n### %s\n' "$1"; shift; curl --silent --show-error --write-out '\n# %{http_code}\n' "$@"; }

# Expect 200 and "ready".
ask 'Is it there?' \
  "$service"/readyz

# Expect 200 and "#7" at /result/drill/name.
ask 'The winch bracket has 1/4-20 holes. Which drill, at 75 percent of thread?' \
  "$service"'/v1/holes/tap-drill?thread=1/4-20%20UNC&thread_percent=75%20percent&units=inch' \
  --header 'Accept: application/json'

# Expect 200 and 0.2013.
ask 'The same as one bare value, for a cell or a script.' \
  "$service"'/v1/holes/tap-drill.txt?thread=1/4-20%20UNC&thread_percent=75%20percent&pick=drill_diameter&units=inch&digits=shop'

# Expect 200 and 0.9002.
ask 'A blind hole is 3/4 in deep at full diameter. How deep does the point of a 1/2 in drill go?' \
  "$service"'/v1/holes/drill-point.txt?diameter=1/2%20in&full_depth=3/4%20in&pick=tip_depth&units=inch&digits=shop'

# Expect 200 and 0.257 at /result/drills/0/diameter/value.
ask 'What is a letter F drill?' \
  "$service"'/v1/holes/drill-size?name=letter%20F&units=inch'

# Expect 200 and "2,1,1.73205080756888,-1,1.73205080756888,60".
ask 'The pump flange has six holes on a 4 in circle. Where are they?' \
  "$service"'/v1/patterns/bolt-circle.csv?diameter=4in&holes=6'

# Expect 200 and 12.1875.
ask 'A broken cam: its chord is 21 mm, its height 6 mm. What radius?' \
  "$service"'/v1/geometry/arc.txt?chord=21mm&height=6mm&pick=solutions/0/radius&units=metric'

# Expect 200 and 450 at /result/spindle_speed/value.
ask 'How fast does the mill turn a 1/2 in cutter at 70 ft/min? It has eight speeds.' \
  "$service"'/v1/speeds/spindle-speed?cutting_speed=70%20ft/min&diameter=1/2%20in&machine=mill&units=inch'

# Expect 200 and 47 at /result/load/value.
ask 'The drum shaft is turned from 40 mm with 1 mm of depth on the lathe. How much of its power does that take?' \
  "$service"/v1/speeds/turning \
  --header 'Content-Type: application/json' \
  --data-binary '{
  "diameter": "40 mm",
  "depth_of_cut": "1 mm",
  "material": "1018",
  "tool_material": "carbide",
  "machine": "lathe",
  "units": "metric"
}'

# Expect 200 and "power" at /result/limited_by/2.
ask 'A slot in annealed 4140, 3/4 in wide and as deep. Will the mill drive it?' \
  "$service"/v1/speeds/milling \
  --header 'Content-Type: application/json' \
  --data-binary '{
  "diameter": "3/4 in",
  "teeth": 4,
  "radial_depth": "3/4 in",
  "axial_depth": "3/4 in",
  "material": "4140 annealed",
  "tool_material": "carbide",
  "machine": "mill"
}'

# Expect 200 and 1.6 at /result/cutting_time/value.
ask 'How long does facing 6 in take at 5 in/min with a 2 in cutter over a face 1-1/4 in wide?' \
  "$service"'/v1/speeds/cutting-time?operation=face_milling&length=6%20in&feed_rate=5%20in/min&diameter=2%20in&width=1-1/4%20in&clear_out=clear&units=inch'

# Expect 200 and 7.188 at /result/pitch_diameter/value.
ask 'What must an M8 thread measure?' \
  "$service"'/v1/threads/thread?designation=M8&units=metric'

# Expect 200 and 0.0444.
ask 'Which wires for 1/2-13?' \
  "$service"'/v1/threads/wires.txt?thread=1/2-13%20UNC&pick=best_wire&units=inch&digits=shop'

# Expect 200 and 1.5 at /result/wanted_lead/value.
ask 'The lathe cuts an M10 screw with a leadscrew of eight to the inch. Which of the shop'"'"'s gears?' \
  "$service"'/v1/threads/change-gears?thread=M10&leadscrew_lead=1/8%20in&units=metric'

# Expect 200 and "5/16-24 UNF" at /result/thread.
ask 'A stripped 1/4-20 hole measures 6.9 mm. What is the next thread?' \
  "$service"'/v1/threads/rescue?thread=1/4-20%20UNC&hole_diameter=6.9%20mm'

# Expect 200 and 1.502 at /result/center/value.
ask 'The edge finder touched both sides of the vise at -0.100 in and 3.104 in. Where is the middle?' \
  "$service"'/v1/datum/between-faces?first=-0.100%20in&second=3.104%20in&tip_diameter=0.200%20in&touched=outside&units=inch'

# Expect 200 and 0.0215 at /result/tilt/value.
ask 'The mill'"'"'s head is off by 0.003 in over a sweep of 8 in. By which angle?' \
  "$service"'/v1/datum/tram?difference=0.003%20in&sweep_diameter=8%20in&cutter_diameter=2.5%20in&units=inch'

# Expect 200 and "unit_missing" at /1/problem/errors/0/code.
ask 'Three questions of the hole list at once; the second is wrong on purpose and spoils no other.' \
  "$service"'/v1/batch?units=inch&working=false' \
  --header 'Content-Type: application/json' \
  --data-binary '[
  {"id": "A", "calculator": "holes/drill-point", "inputs": {"diameter": "1/2 in"}},
  {"id": "B", "calculator": "holes/drill-point", "inputs": {"diameter": "0.5"}},
  {"id": "C", "calculator": "holes/tap-drill", "inputs": {"thread": "M8"}}
]'

# Expect 200 and "0.5,0.75,0.150215".
ask 'A table of drills comes back with their points.' \
  "$service"'/v1/holes/drill-point.csv?units=inch' \
  --header 'Content-Type: text/csv' \
  --data-binary 'diameter [in],full_depth [in]
0.25,0.5
0.5,0.75'

# Expect 200 and "<svg".
ask 'A drawing to scale of the pump flange.' \
  "$service"'/v1/patterns/bolt-circle.svg?diameter=4in&holes=6'

# Expect 422 and "0.5 in" at /errors/0/try.
ask 'A size without its unit is refused, and the refusal says what to write.' \
  "$service"'/v1/holes/drill-point?diameter=0.5'

# Expect 422 and "304" at /errors/0/try.
ask 'Stainless 1.4301 is near 304 and not the same, so the service asks.' \
  "$service"'/v1/speeds/drilling?diameter=8%20mm&material=1.4301&tool_material=hss'

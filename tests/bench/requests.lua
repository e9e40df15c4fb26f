-- A fresh random request each time; the path is chosen by the environment.
local which = os.getenv("BENCH_CALCULATOR") or "drill-point"

local function number(low, high)
  return string.format("%.4f", low + math.random() * (high - low))
end

local makers = {
  ["drill-point"] = function()
    return "/v1/holes/drill-point?diameter=" .. number(0.1, 2) .. "%20in&point_angle=" .. number(60, 140)
      .. "%20deg&full_depth=" .. number(0, 3) .. "%20in"
  end,
  ["bolt-circle"] = function()
    return "/v1/patterns/bolt-circle?diameter=" .. number(1, 20) .. "%20in&holes=6&start_angle=" .. number(0, 90)
      .. "%20deg"
  end,
  ["spindle-speed"] = function()
    return "/v1/speeds/spindle-speed?cutting_speed=" .. number(40, 300) .. "%20ft/min&diameter=" .. number(0.2, 3)
      .. "%20in"
  end,
}

local next_thread = 0
function setup(thread)
  thread:set("seed", os.time() * 100 + next_thread)
  next_thread = next_thread + 1
end

function init()
  math.randomseed(seed)
end

function request()
  return wrk.format("GET", makers[which]())
end

-- A fresh random request each time, for wrk. BENCH_PATH is its template: <1..2> is a number between, <a|b> one of the words.
-- With BENCH_ITEM it is a POST of BENCH_ITEMS such items, each drawn by itself.
local function parts_of(template)
  local parts, from = {}, 1
  for before, inside, after in template:gmatch("([^<]*)<([^>]*)>()") do
    local low, high = inside:match("^([%d.-]-)%.%.([%d.-]+)$")
    local draw
    if low then
      low, high = tonumber(low), tonumber(high)
      draw = function() return string.format("%.4f", low + math.random() * (high - low)) end
    else
      local words = {}
      for word in inside:gmatch("[^|]+") do words[#words + 1] = word end
      draw = function() return words[math.random(#words)] end
    end
    parts[#parts + 1], parts[#parts + 2], from = before, draw, after
  end
  parts[#parts + 1] = template:sub(from)
  return parts
end

local function drawn(parts)
  local texts = {}
  for at, part in ipairs(parts) do texts[at] = type(part) == "string" and part or part() end
  return table.concat(texts)
end

local path = parts_of(os.getenv("BENCH_PATH"))
local item = os.getenv("BENCH_ITEM") and parts_of(os.getenv("BENCH_ITEM"))
local items = tonumber(os.getenv("BENCH_ITEMS") or 0)

local next_thread = 0
function setup(thread)
  thread:set("seed", os.time() * 100 + next_thread)
  next_thread = next_thread + 1
end

function init()
  math.randomseed(seed)
end

function request()
  if not item then return wrk.format("GET", drawn(path)) end
  local body = {}
  for at = 1, items do body[at] = drawn(item) end
  return wrk.format("POST", drawn(path), { ["Content-Type"] = "application/json" }, "[" .. table.concat(body, ",") .. "]")
end

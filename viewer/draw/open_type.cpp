#include "viewer/draw/open_type.h"

#include <bit>
#include <optional>
#include <string_view>

namespace lugline {
namespace {

using Bytes = std::span<const std::uint8_t>;

/// Beyond the end reads as 0, which every caller takes as "nothing there".
std::uint32_t u16(Bytes t, std::size_t at) {
  return at + 2 <= t.size() ? static_cast<std::uint32_t>(t[at] << 8 | t[at + 1]) : 0u;
}
std::uint32_t u32(Bytes t, std::size_t at) {
  return u16(t, at) << 16 | u16(t, at + 2);
}
int s16(Bytes t, std::size_t at) {
  return static_cast<std::int16_t>(static_cast<std::uint16_t>(u16(t, at)));
}

/// Where a glyph stands in a coverage table.
std::optional<std::uint32_t> covered(Bytes t, std::size_t at, std::uint32_t glyph) {
  const std::uint32_t format = u16(t, at);
  std::size_t low = 0;
  std::size_t high = u16(t, at + 2);
  while (low < high) {
    const std::size_t middle = (low + high) / 2;
    if (format == 1) {
      const std::uint32_t here = u16(t, at + 4 + 2 * middle);
      if (here == glyph)
        return static_cast<std::uint32_t>(middle);
      (here < glyph ? low : high) = here < glyph ? middle + 1 : middle;
    } else if (format == 2) {
      const std::size_t range = at + 4 + 6 * middle;
      if (glyph < u16(t, range))
        high = middle;
      else if (glyph > u16(t, range + 2))
        low = middle + 1;
      else
        return u16(t, range + 4) + glyph - u16(t, range);
    } else {
      return std::nullopt;
    }
  }
  return std::nullopt;
}

std::uint32_t class_of(Bytes t, std::size_t at, std::uint32_t glyph) {
  const std::uint32_t format = u16(t, at);
  if (format == 1) {
    const std::uint32_t first = u16(t, at + 2);
    const std::uint32_t count = u16(t, at + 4);
    return glyph >= first && glyph - first < count ? u16(t, at + 6 + 2 * (glyph - first)) : 0u;
  }
  if (format != 2)
    return 0;
  std::size_t low = 0;
  std::size_t high = u16(t, at + 2);
  while (low < high) {
    const std::size_t middle = (low + high) / 2;
    const std::size_t range = at + 4 + 6 * middle;
    if (glyph < u16(t, range))
      high = middle;
    else if (glyph > u16(t, range + 2))
      low = middle + 1;
    else
      return u16(t, range + 4);
  }
  return 0;
}

/// Subtables of the lookups of a feature, with their types, extensions followed.
struct Subtable {
  std::uint32_t type = 0;
  std::size_t at = 0;
};
std::vector<Subtable> subtables_of(Bytes t, std::string_view feature, std::uint32_t extension) {
  std::vector<Subtable> found;
  const std::size_t features = u16(t, 6);
  const std::size_t lookups = u16(t, 8);
  std::vector<std::uint32_t> wanted;
  for (std::size_t i = 0; i < u16(t, features); ++i) {
    const std::size_t record = features + 2 + 6 * i;
    if (record + 6 > t.size())
      break;
    if (std::string_view(reinterpret_cast<const char*>(&t[record]), 4) != feature)
      continue;
    const std::size_t table = features + u16(t, record + 4);
    for (std::size_t k = 0; k < u16(t, table + 2); ++k)
      wanted.push_back(u16(t, table + 4 + 2 * k));
    break; // the scripts' copies name the same lookups
  }
  for (const std::uint32_t index : wanted) {
    const std::size_t lookup = lookups + u16(t, lookups + 2 + 2 * std::size_t{index});
    for (std::size_t k = 0; k < u16(t, lookup + 4); ++k) {
      Subtable sub{u16(t, lookup), lookup + u16(t, lookup + 6 + 2 * k)};
      if (sub.type == extension) {
        sub.type = u16(t, sub.at + 2);
        sub.at += u32(t, sub.at + 4);
      }
      if (sub.at < t.size())
        found.push_back(sub);
    }
  }
  return found;
}

/// Bytes that a value record takes, and where in it the pen's way is; -1 not there.
std::size_t value_size(std::uint32_t format) {
  return 2 * static_cast<std::size_t>(std::popcount(format));
}
int advance_place(std::uint32_t format) {
  return (format & 4u) != 0 ? 2 * std::popcount(format & 3u) : -1;
}

} // namespace

PairKerning::PairKerning(std::vector<std::uint8_t> gpos) : table_(std::move(gpos)) {
  constexpr std::uint32_t pair_adjustment = 2;
  constexpr std::uint32_t extension = 9;
  for (const Subtable& sub : subtables_of(table_, "kern", extension))
    if (sub.type == pair_adjustment)
      subtables_.push_back(sub.at);
}

bool PairKerning::from_subtable(std::size_t at, std::uint32_t left, std::uint32_t right,
                                int& value) const {
  const Bytes t(table_);
  const std::optional<std::uint32_t> place = covered(t, at + u16(t, at + 2), left);
  if (!place)
    return false;
  const std::uint32_t first = u16(t, at + 4);
  const std::uint32_t second = u16(t, at + 6);
  const int offset = advance_place(first);
  if (u16(t, at) == 1) {
    const std::size_t set = at + u16(t, at + 10 + 2 * std::size_t{*place});
    const std::size_t record = 2 + value_size(first) + value_size(second);
    for (std::size_t i = 0; i < u16(t, set); ++i) {
      const std::size_t pair = set + 2 + record * i;
      if (u16(t, pair) != right)
        continue;
      value = offset >= 0 ? s16(t, pair + 2 + static_cast<std::size_t>(offset)) : 0;
      return true;
    }
    return false;
  }
  if (u16(t, at) != 2)
    return false;
  const std::uint32_t one = class_of(t, at + u16(t, at + 8), left);
  const std::uint32_t two = class_of(t, at + u16(t, at + 10), right);
  const std::size_t record = value_size(first) + value_size(second);
  const std::size_t cell =
      at + 16 + record * (std::size_t{one} * u16(t, at + 14) + std::size_t{two});
  value = offset >= 0 ? s16(t, cell + static_cast<std::size_t>(offset)) : 0;
  return true;
}

int PairKerning::between(std::uint32_t left, std::uint32_t right) const {
  int value = 0;
  for (const std::size_t at : subtables_)
    if (from_subtable(at, left, right, value))
      return value;
  return 0;
}

std::map<std::uint32_t, std::uint32_t> even_figures(std::span<const std::uint8_t> gsub) {
  constexpr std::uint32_t single = 1;
  constexpr std::uint32_t extension = 7;
  std::map<std::uint32_t, std::uint32_t> replaced;
  for (const Subtable& sub : subtables_of(gsub, "tnum", extension)) {
    if (sub.type != single)
      continue;
    const std::size_t coverage = sub.at + u16(gsub, sub.at + 2);
    for (std::uint32_t glyph = 0; glyph < 65535; ++glyph) {
      const std::optional<std::uint32_t> place = covered(gsub, coverage, glyph);
      if (!place)
        continue;
      const std::uint32_t to = u16(gsub, sub.at) == 1
                                   ? (glyph + u16(gsub, sub.at + 4)) & 0xffffu
                                   : u16(gsub, sub.at + 6 + 2 * std::size_t{*place});
      replaced.emplace(glyph, to);
    }
  }
  return replaced;
}

} // namespace lugline

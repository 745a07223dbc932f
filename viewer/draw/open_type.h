// Two things that a font file says and FreeType does not read: kerning between
// pairs, and which figure is the even one of each digit.
//
// Reads the OpenType tables GPOS (feature kern: pair adjustment of the pen's
// way) and GSUB (feature tnum: single substitution), as the OpenType
// specification lays them out. Every read is checked against the table's end;
// a table that makes no sense gives no kerning and no even digits. Font units.
// Plain values, no OpenGL.
#pragma once

#include <cstdint>
#include <map>
#include <span>
#include <vector>

namespace lugline {

class PairKerning {
public:
  PairKerning() = default;
  explicit PairKerning(std::vector<std::uint8_t> gpos);

  /// Added to the pen's way after the left glyph, in font units.
  [[nodiscard]] int between(std::uint32_t left, std::uint32_t right) const;

private:
  [[nodiscard]] bool from_subtable(std::size_t at, std::uint32_t left, std::uint32_t right,
                                   int& value) const;
  std::vector<std::uint8_t> table_;
  std::vector<std::size_t> subtables_; ///< in the order in which they are asked
};

/// For each glyph that the feature replaces, its replacement; from a GSUB table.
std::map<std::uint32_t, std::uint32_t> even_figures(std::span<const std::uint8_t> gsub);

} // namespace lugline

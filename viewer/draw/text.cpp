#include "viewer/draw/text.h"

#include "viewer/draw/open_type.h"

#include <ft2build.h>
#include FT_FREETYPE_H
#include FT_ADVANCES_H
#include FT_OUTLINE_H
#include FT_TRUETYPE_TABLES_H

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>
#include <string>

namespace lugline {
namespace {

/// From this size on the cut for display is used where there is one.
constexpr double display_from_px = 24;
constexpr int weights = 4;

struct Face {
  FT_Face face = nullptr;
  PairKerning kerning;
  std::map<std::uint32_t, std::uint32_t> even;
  double even_advance = 0; ///< of the widest even digit, font units
  double units_per_em = 1000;
  double capital = 0.727; ///< in ems

  [[nodiscard]] std::uint32_t even_digit(char32_t digit) const {
    const std::uint32_t glyph = FT_Get_Char_Index(face, digit);
    const auto found = even.find(glyph);
    return found != even.end() ? found->second : glyph;
  }
};

/// From the font's table of widths: loading the glyph would unpack its outline,
/// and a page is measured many times over before it is painted once.
double advance_of(FT_Face face, std::uint32_t glyph) {
  FT_Fixed advance = 0;
  return FT_Get_Advance(face, glyph, FT_LOAD_NO_SCALE, &advance) == 0 ? static_cast<double>(advance)
                                                                      : 0.0;
}

std::vector<std::uint8_t> table_of(FT_Face face, FT_ULong tag) {
  FT_ULong length = 0;
  if (FT_Load_Sfnt_Table(face, tag, 0, nullptr, &length) != 0)
    return {};
  std::vector<std::uint8_t> bytes(length);
  if (FT_Load_Sfnt_Table(face, tag, 0, bytes.data(), &length) != 0)
    return {};
  return bytes;
}

const std::array<std::filesystem::path, 6>& usual_folders() {
  static const std::array<std::filesystem::path, 6> folders = {
      "/usr/share/fonts/opentype/inter",
      "/usr/share/fonts/truetype/inter",
      "/usr/share/fonts/inter",
      "/usr/share/fonts/TTF",
      "/usr/local/share/fonts/opentype/inter",
      "/usr/local/share/fonts/inter"};
  return folders;
}

/// The file of a weight in a folder, whichever of the font's formats it holds.
std::filesystem::path file_of(const std::filesystem::path& folder, const std::string& cut,
                              int weight) {
  static const std::array<const char*, weights> names = {"Regular", "Medium", "SemiBold", "Bold"};
  for (const char* ending : {".otf", ".ttf"}) {
    std::error_code ignored;
    const auto file = folder / (cut + "-" + names[static_cast<std::size_t>(weight)] + ending);
    if (std::filesystem::is_regular_file(file, ignored))
      return file;
  }
  return {};
}

} // namespace

struct Fonts::Inner {
  FT_Library library = nullptr;
  std::vector<Face> faces; ///< the four weights for text, then those for display where there are

  ~Inner() {
    for (Face& face : faces)
      FT_Done_Face(face.face);
    if (library != nullptr)
      FT_Done_FreeType(library);
  }

  bool open(const std::filesystem::path& file) {
    Face made;
    if (FT_New_Face(library, file.string().c_str(), 0, &made.face) != 0)
      return false;
    if (!FT_IS_SCALABLE(made.face) || made.face->units_per_EM == 0) {
      FT_Done_Face(made.face);
      return false;
    }
    made.units_per_em = made.face->units_per_EM;
    made.kerning = PairKerning(table_of(made.face, FT_MAKE_TAG('G', 'P', 'O', 'S')));
    for (const auto& [from, to] :
         even_figures(table_of(made.face, FT_MAKE_TAG('G', 'S', 'U', 'B'))))
      made.even.emplace(from, to);
    for (char32_t digit = U'0'; digit <= U'9'; ++digit)
      made.even_advance =
          std::max(made.even_advance, advance_of(made.face, made.even_digit(digit)));
    const auto* os2 = static_cast<TT_OS2*>(FT_Get_Sfnt_Table(made.face, FT_SFNT_OS2));
    if (os2 != nullptr && os2->sCapHeight > 0)
      made.capital = os2->sCapHeight / made.units_per_em;
    faces.push_back(std::move(made));
    return true;
  }
  [[nodiscard]] int face_for(double design_px, FontWeight weight) const {
    const int plain = static_cast<int>(weight);
    const bool display = design_px >= display_from_px && faces.size() >= 2 * weights;
    return display ? plain + weights : plain;
  }
};

Fonts::Fonts(std::unique_ptr<Inner> inner) : inner_(std::move(inner)) {}
Fonts::~Fonts() = default;

Outcome<std::shared_ptr<Fonts>> Fonts::load(const std::filesystem::path& folder) {
  auto inner = std::make_unique<Inner>();
  if (FT_Init_FreeType(&inner->library) != 0)
    return Problem{"the font library FreeType did not start"};
  std::vector<std::filesystem::path> folders;
  if (folder.empty())
    folders.assign(usual_folders().begin(), usual_folders().end());
  else
    folders.push_back(folder);
  for (const auto& place : folders) {
    if (file_of(place, "Inter", 0).empty())
      continue;
    for (int weight = 0; weight < weights; ++weight) {
      const auto file = file_of(place, "Inter", weight);
      if (file.empty() || !inner->open(file))
        return Problem{"the font Inter in " + place.string() +
                       " lacks a weight or cannot be read (regular, medium, semibold and bold "
                       "are needed; install fonts-inter)"};
    }
    for (int weight = 0; weight < weights; ++weight) {
      const auto file = file_of(place, "InterDisplay", weight);
      if (file.empty() || !inner->open(file))
        break;
    }
    return std::shared_ptr<Fonts>(new Fonts(std::move(inner)));
  }
  return Problem{"the font Inter was not found" +
                 (folder.empty() ? std::string() : " in " + folder.string()) +
                 " (install fonts-inter)"};
}

std::vector<PlacedGlyph> Fonts::glyphs_of(std::string_view line, double size_px, double design_px,
                                          FontWeight weight, bool even_digits,
                                          double& width_px) const {
  const int index = inner_->face_for(design_px, weight);
  const Face& face = inner_->faces[static_cast<std::size_t>(index)];
  const double px_per_unit = size_px / face.units_per_em;
  std::vector<PlacedGlyph> glyphs;
  double pen = 0; // in font units
  std::uint32_t before = 0;
  for (const char32_t point : code_points_of(line)) {
    const bool even = even_digits && point >= U'0' && point <= U'9';
    const std::uint32_t glyph = even ? face.even_digit(point) : FT_Get_Char_Index(face.face, point);
    const double advance = advance_of(face.face, glyph);
    // Not every cut of the font has digits of one width: each is set in the
    // middle of the widest one's.
    const double indent = even ? 0.5 * (face.even_advance - advance) : 0.0;
    if (!glyphs.empty() && !even)
      pen += face.kerning.between(before, glyph);
    glyphs.push_back({index, glyph, (pen + indent) * px_per_unit});
    pen += even ? face.even_advance : advance;
    before = glyph;
  }
  width_px = pen * px_per_unit;
  return glyphs;
}

double Fonts::width_px(std::string_view line, double size_px, FontWeight weight,
                       bool even_digits) const {
  double width = 0;
  (void)glyphs_of(line, size_px, size_px, weight, even_digits, width);
  return width;
}

double Fonts::capital_px(double size_px, FontWeight weight) const {
  return inner_->faces[static_cast<std::size_t>(inner_->face_for(size_px, weight))].capital *
         size_px;
}

double Fonts::ascent_px(double size_px, FontWeight weight) const {
  const Face& face = inner_->faces[static_cast<std::size_t>(inner_->face_for(size_px, weight))];
  return face.face->ascender / face.units_per_em * size_px;
}

double Fonts::descent_px(double size_px, FontWeight weight) const {
  const Face& face = inner_->faces[static_cast<std::size_t>(inner_->face_for(size_px, weight))];
  return -face.face->descender / face.units_per_em * size_px;
}

InkBounds Fonts::ink_of(std::string_view line, double size_px, FontWeight weight,
                        bool even_digits) const {
  double width = 0;
  InkBounds ink;
  for (const PlacedGlyph& placed : glyphs_of(line, size_px, size_px, weight, even_digits, width)) {
    const Face& face = inner_->faces[static_cast<std::size_t>(placed.face)];
    if (FT_Load_Glyph(face.face, placed.glyph, FT_LOAD_NO_SCALE) != 0)
      continue;
    const FT_Glyph_Metrics& m = face.face->glyph->metrics;
    if (m.width == 0)
      continue;
    const double unit = size_px / face.units_per_em;
    const double left = placed.x_px + static_cast<double>(m.horiBearingX) * unit;
    const double top = -static_cast<double>(m.horiBearingY) * unit;
    const double right = left + static_cast<double>(m.width) * unit;
    const double bottom = top + static_cast<double>(m.height) * unit;
    if (ink.empty())
      ink = {left, top, right, bottom};
    ink = {std::min(ink.left_px, left), std::min(ink.top_px, top), std::max(ink.right_px, right),
           std::max(ink.bottom_px, bottom)};
  }
  return ink;
}

GlyphImage Fonts::image_of(int face_index, std::uint32_t glyph, double size_px,
                           double fraction_px) const {
  assert(face_index >= 0 && static_cast<std::size_t>(face_index) < inner_->faces.size());
  FT_Face face = inner_->faces[static_cast<std::size_t>(face_index)].face;
  GlyphImage image;
  const auto size = static_cast<FT_F26Dot6>(std::lround(size_px * 64));
  // Hinting upright only: rows fall on pixels, and widths stay the font's own.
  if (FT_Set_Char_Size(face, size, size, 72, 72) != 0 ||
      FT_Load_Glyph(face, glyph, FT_LOAD_TARGET_LIGHT | FT_LOAD_NO_BITMAP) != 0)
    return image;
  FT_GlyphSlot slot = face->glyph;
  FT_Outline_Translate(&slot->outline, std::lround(fraction_px * 64), 0);
  if (FT_Render_Glyph(slot, FT_RENDER_MODE_NORMAL) != 0)
    return image;
  const FT_Bitmap& bitmap = slot->bitmap;
  image.width_px = static_cast<int>(bitmap.width);
  image.height_px = static_cast<int>(bitmap.rows);
  image.left_px = slot->bitmap_left;
  image.top_px = slot->bitmap_top;
  image.cover.resize(std::size_t{bitmap.width} * bitmap.rows);
  for (unsigned row = 0; row < bitmap.rows; ++row)
    std::copy_n(bitmap.buffer + static_cast<std::ptrdiff_t>(row) * bitmap.pitch, bitmap.width,
                image.cover.begin() + static_cast<std::ptrdiff_t>(row * bitmap.width));
  return image;
}

std::vector<char32_t> code_points_of(std::string_view text) {
  constexpr char32_t not_text = 0xfffd;
  std::vector<char32_t> points;
  for (std::size_t i = 0; i < text.size();) {
    const auto lead = static_cast<unsigned char>(text[i]);
    const int more = lead < 0x80   ? 0
                     : lead < 0xc2 ? -1
                     : lead < 0xe0 ? 1
                     : lead < 0xf0 ? 2
                     : lead < 0xf5 ? 3
                                   : -1;
    char32_t point = more <= 0 ? lead : static_cast<char32_t>(lead & (0x3f >> more));
    bool sound = more >= 0 && i + static_cast<std::size_t>(std::max(more, 0)) < text.size();
    for (int k = 1; sound && k <= more; ++k) {
      const auto next = static_cast<unsigned char>(text[i + static_cast<std::size_t>(k)]);
      sound = (next & 0xc0) == 0x80;
      point = point << 6 | (next & 0x3f);
    }
    static constexpr std::array<char32_t, 4> least = {0, 0x80, 0x800, 0x10000};
    sound = sound && point >= least[static_cast<std::size_t>(std::max(more, 0))] &&
            point <= 0x10ffff && (point < 0xd800 || point > 0xdfff);
    points.push_back(sound ? point : not_text);
    i += sound ? static_cast<std::size_t>(more) + 1 : 1;
  }
  return points;
}

} // namespace lugline

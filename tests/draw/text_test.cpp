// Words: measured without any picture, and measured as they are drawn.
#include "tests/draw/drawing_board.h"
#include "viewer/draw/text.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace lugline;
using lugline::shapes::brightness;
using lugline::shapes::DrawingBoard;

namespace {

std::shared_ptr<Fonts> fonts() {
  auto loaded = Fonts::load();
  REQUIRE(loaded.ok());
  return loaded.value();
}

} // namespace

TEST_CASE("a missing font is told, with what to install", "[text]") {
  const auto missing = Fonts::load("/nowhere/at/all");
  REQUIRE_FALSE(missing.ok());
  CHECK(missing.problem().find("fonts-inter") != std::string::npos);
  CHECK(missing.problem().find("/nowhere/at/all") != std::string::npos);
}

TEST_CASE("widths grow with size, and with every letter", "[text]") {
  const auto f = fonts();
  const double one = f->width_px("clearance", 12, FontWeight::regular, false);
  CHECK(one > 30);
  CHECK(f->width_px("clearance", 18, FontWeight::regular, false) == Approx(1.5 * one));
  CHECK(f->width_px("clearances", 12, FontWeight::regular, false) > one);
  CHECK(f->width_px("clearance", 12, FontWeight::bold, false) > one);
  CHECK(f->width_px("", 12, FontWeight::regular, false) == 0);
}

TEST_CASE("pairs are kerned", "[text]") {
  const auto f = fonts();
  const auto width = [&](const char* words) {
    return f->width_px(words, 100, FontWeight::regular, false);
  };
  CHECK(width("AV") < width("A") + width("V") - 2);
  CHECK(width("To") < width("T") + width("o") - 2);
  CHECK(width("HH") == Approx(width("H") * 2).margin(0.5));
}

TEST_CASE("even digits are all as wide", "[text]") {
  const auto f = fonts();
  const double zero = f->width_px("0", 40, FontWeight::bold, true);
  for (const char* digit : {"1", "2", "3", "4", "5", "6", "7", "8", "9"})
    CHECK(f->width_px(digit, 40, FontWeight::bold, true) == Approx(zero));
  CHECK(f->width_px("1", 40, FontWeight::bold, false) < zero - 1);
}

TEST_CASE("UTF-8 is read, and what is not becomes one mark", "[text]") {
  CHECK(code_points_of("a\u00e9\u2013\U0001F527") ==
        std::vector<char32_t>{U'a', 0xe9, 0x2013, 0x1f527});
  CHECK(code_points_of("\xff").size() == 1);
  CHECK(code_points_of("\xff")[0] == 0xfffd);
  CHECK(code_points_of("\xc3") == std::vector<char32_t>{0xfffd});
  CHECK(code_points_of("\xc0\xaf") == std::vector<char32_t>{0xfffd, 0xfffd});
  CHECK(code_points_of("\xed\xa0\x80")[0] == 0xfffd); // half a surrogate pair
  CHECK(code_points_of("").empty());
}

TEST_CASE("words wrap at spaces and never beyond the measure", "[text]") {
  const auto f = fonts();
  TextShape text;
  text.words = "Lower the drum gently, turning it both ways, until it falls four times.";
  text.size_px = 16;
  text.wrap_px = 180;
  const auto lines = lines_of(text, *f);
  CHECK(lines.size() > 2);
  std::string joined;
  for (const std::string& line : lines) {
    CHECK(f->width_px(line, 16, text.weight, false) <= 180);
    joined += (joined.empty() ? "" : " ") + line;
  }
  CHECK(joined == text.words);
  const TextExtent extent = extent_of(text, *f);
  CHECK(extent.lines == static_cast<int>(lines.size()));
  CHECK(extent.width_px <= 180);
  // One word wider than the measure stands alone.
  text.words = "in antidisestablishmentarianism so";
  text.wrap_px = 60;
  CHECK(lines_of(text, *f).size() == 3);
  text.words = "one\ntwo";
  text.wrap_px = 0;
  CHECK(lines_of(text, *f).size() == 2);
}

TEST_CASE("words are drawn where they were measured", "[text][draw]") {
  DrawingBoard& board = DrawingBoard::get();
  for (const double scale : {1.0, 1.5, 2.5}) {
    for (const char* words : {"Stand-off 1.70 mm", "gap", "\u00b1 0.05 \u2013 Hj"}) {
      TextShape text;
      text.words = words;
      text.at = {20.3, 60};
      text.size_px = 22;
      text.weight = FontWeight::semibold;
      Drawing2d drawing;
      drawing.add(text);
      const OffscreenTarget target(640, 240);
      board.renderer().draw_into(target.framebuffer(), target.viewport(), {});
      const Image before = target.read();
      board.painter().paint(drawing, target.framebuffer(), target.viewport(), scale);
      const Image after = target.read();
      int left = 10000;
      int right = -1;
      int top = 10000;
      int bottom = -1;
      for (int y = 0; y < 240; ++y)
        for (int x = 0; x < 640; ++x)
          if (brightness(before, x, y) - brightness(after, x, y) > 24) {
            left = std::min(left, x);
            right = std::max(right, x + 1);
            top = std::min(top, y);
            bottom = std::max(bottom, y + 1);
          }
      const InkBounds ink = board.fonts()->ink_of(words, 22, text.weight);
      INFO(words << " at scale " << scale);
      CHECK(left == Approx((20.3 + ink.left_px) * scale).margin(1.5));
      CHECK(right == Approx((20.3 + ink.right_px) * scale).margin(1.5));
      CHECK(top == Approx((60 + ink.top_px) * scale).margin(1.5));
      CHECK(bottom == Approx((60 + ink.bottom_px) * scale).margin(1.5));
      CHECK(board.fonts()->width_px(words, 22, text.weight, false) >= ink.right_px - 2);
    }
  }
}

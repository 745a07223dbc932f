// Every text on its ground meets WCAG 2.1's AA: 4.5 to 1 (success criterion 1.4.3).
// Relative luminance and contrast ratio as defined there.
#include "viewer/panels/style.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

using namespace lugline;

namespace {

double linear(float channel) {
  const double c = static_cast<double>(channel);
  return c <= 0.03928 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4);
}

double luminance(const ImVec4& colour) {
  return 0.2126 * linear(colour.x) + 0.7152 * linear(colour.y) + 0.0722 * linear(colour.z);
}

double contrast(const ImVec4& one, const ImVec4& other) {
  const double a = luminance(one);
  const double b = luminance(other);
  return (std::max(a, b) + 0.05) / (std::min(a, b) + 0.05);
}

} // namespace

TEST_CASE("the contrast of black on white is 21 to 1") {
  CHECK(contrast({0, 0, 0, 1}, {1, 1, 1, 1}) == Approx(21));
}

TEST_CASE("text on every ground meets AA") {
  const PanelColours colours = panel_colours();
  for (const ImVec4& ground : {colours.paper, colours.field, colours.button}) {
    for (const ImVec4& text : {colours.ink, colours.quiet, colours.blue, colours.wrong}) {
      CHECK(contrast(text, ground) >= 4.5);
    }
  }
  CHECK(contrast(colours.ink, colours.pressed) >= 4.5);
  CHECK(contrast(colours.ink, colours.caution) >= 4.5);
  CHECK(contrast(colours.paper, colours.chosen) >= 4.5);
}

TEST_CASE("targets grow with the scale") {
  PanelStyle style;
  CHECK(style.target() >= 40);
  style.scale = 2.5f;
  CHECK(style.target() >= 100);
}

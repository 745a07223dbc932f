#include "viewer/stage/page.h"

#include "viewer/stage/page_parts.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace lugline {

namespace {

struct Measures {
  double margin = 32;
  double rule_height = 44;
  double pointer = 12;
  double foot = 48;
};

Measures measures_for(double width_px, double height_px) {
  if (height_px < 400 || width_px < 560) {
    return {14, 26, 9, 42};
  }
  if (height_px < 560 || width_px < 900) {
    return {20, 40, 11, 44};
  }
  return {};
}

PageForm form_for(double width_px, double content_px) {
  if (width_px >= 1000 && content_px >= 440) {
    return PageForm::wide;
  }
  return width_px >= 700 && content_px >= 300 ? PageForm::narrow : PageForm::folded;
}

double words_width_for(PageForm form, double width_px) {
  switch (form) {
  case PageForm::wide:
    return std::clamp(width_px * 0.30, 300.0, 500.0);
  case PageForm::narrow:
    return width_px * 0.36;
  case PageForm::folded:
    break;
  }
  return width_px * 0.47;
}

double side_width_for(PageForm form, double width_px) {
  switch (form) {
  case PageForm::wide:
    return std::clamp(width_px * 0.265, 286.0, 420.0);
  case PageForm::narrow:
    return std::clamp(width_px * 0.20, 140.0, 190.0);
  case PageForm::folded:
    break;
  }
  return 0;
}

/// The hole of a part that goes round the axis; one beside it, a pin, is drawn
/// as the small thing that it is.
void shape_of(const std::vector<SectorRing>& rings, TrayPart& part) {
  part.inner_m = std::ranges::min_element(rings, {}, &SectorRing::inner_m)->inner_m;
  double widest_rad = 0;
  for (const SectorRing& ring : rings) {
    double covered_rad = ring.sectors.empty() ? 2 * std::numbers::pi : 0;
    for (const Sector& sector : ring.sectors) {
      covered_rad += sector.to.at(ring.outer_m) - sector.from.at(ring.outer_m);
    }
    widest_rad = std::max(widest_rad, covered_rad);
  }
  if (widest_rad < std::numbers::pi / 3) {
    const double across_m = part.outer_m * widest_rad;
    part.outer_m = std::max(part.outer_m - part.inner_m, across_m) / 2;
    part.inner_m = 0;
  }
}

void lay_foot(PageLayout& layout, const PageInput& page, const Measures& measures) {
  const double width = layout.width_px;
  const double margin = measures.margin;
  const double foot_top = layout.height_px - measures.foot;
  layout.rule = {margin, foot_top - measures.rule_height, width - 2 * margin, measures.rule_height};
  const double buttons =
      std::clamp(page.foot_buttons_px, 0.0, std::max(width - 2 * margin - 150, 0.0));
  layout.buttons = {width - margin - buttons, foot_top, buttons, measures.foot};
  const double between = buttons > 0 ? 2 * page::gap_px : 0;
  layout.label = {margin, foot_top, width - 2 * margin - buttons - between, measures.foot};
}

} // namespace

double page_scale(double width_px, double height_px, double scale) {
  const double asked = std::max(scale, 0.1);
  const double larger = std::min(width_px / asked / 1366, height_px / asked / 768);
  return asked * std::clamp(larger, 1.0, 1.33);
}

PageLayout lay_out(const PageInput& page) {
  PageLayout layout;
  layout.scale = page_scale(page.width_px, page.height_px, page.scale);
  layout.width_px = page.width_px / layout.scale;
  layout.height_px = page.height_px / layout.scale;
  const Measures measures = measures_for(layout.width_px, layout.height_px);
  lay_foot(layout, page, measures);
  const double top = measures.margin;
  const double bottom = layout.rule.y_px - measures.pointer - page::gap_px;
  layout.form = form_for(layout.width_px, bottom);
  layout.words = {measures.margin, top, words_width_for(layout.form, layout.width_px),
                  bottom - top};
  const double picture_left = layout.words.right_px() + 1.5 * page::gap_px;
  double picture_right = layout.width_px;
  const double side = page.column ? side_width_for(layout.form, layout.width_px) : 0;
  if (side > 0) {
    layout.column = {layout.width_px - measures.margin - side, top, side, bottom - top};
    picture_right = layout.column.x_px - 1.5 * page::gap_px;
  }
  const double picture_bottom = layout.rule.y_px - measures.pointer;
  const double slider = page.slider ? 52 : 0;
  layout.picture = {picture_left, 0, picture_right - picture_left, picture_bottom - slider};
  if (page.slider) {
    layout.slider = {picture_left, picture_bottom - slider, picture_right - picture_left, slider};
  }
  return layout;
}

std::optional<std::size_t> PageLayout::step_at(PointPx point, std::size_t steps) const {
  // The ticks reach a little above the rule, where the pointer runs.
  const Box reach{rule.x_px - 6, rule.y_px - 14, rule.width_px + 12, rule.height_px + 14};
  if (steps == 0 || !reach.holds(point)) {
    return std::nullopt;
  }
  const double first = page::tick_x(rule, steps, 0);
  const double last = page::tick_x(rule, steps, static_cast<double>(steps - 1));
  const double along = last > first ? (point.x_px - first) / (last - first) : 0;
  const double step = std::round(along * static_cast<double>(steps - 1));
  return static_cast<std::size_t>(std::clamp(step, 0.0, static_cast<double>(steps - 1)));
}

std::vector<TrayPart> tray_of(const Unit& unit, const std::vector<Waiting>& waiting) {
  std::vector<TrayPart> tray;
  for (const Waiting& one : waiting) {
    TrayPart part;
    part.words = one.words;
    part.outer_m = one.outer_m;
    part.height_m = one.height_m;
    part.material = one.material;
    part.next = one.next;
    const auto known = std::ranges::find(unit.components, one.line, &UnitComponent::line);
    if (known != unit.components.end() && !known->part.solid.rings.empty()) {
      shape_of(known->part.solid.rings, part);
    }
    tray.push_back(part);
  }
  return tray;
}

PageInput page_of(const Stage& stage, const ViewState& view, double width_px, double height_px,
                  double scale) {
  PageInput page;
  page.width_px = width_px;
  page.height_px = height_px;
  page.scale = scale;
  page.words = stage.words(view);
  page.column = stage.column(view);
  page.rule = stage.rule();
  page.tray = tray_of(stage.unit(), stage.waiting(view));
  page.step = view.step;
  page.moment = view.moment;
  page.unit = view.settings.unit;
  page.print_look = view.settings.print_look;
  return page;
}

Drawing2d draw_page(const PageInput& page, const PageLayout& layout, const PageMarks& marks,
                    const TextRuler& ruler) {
  Drawing2d drawing;
  page::draw_labels(drawing, layout.picture, marks, ruler);
  if (!page.covered) {
    const auto up = std::ranges::find(marks.anchors, AnchorSort::up_arrow, &PageAnchor::sort);
    page::draw_words(drawing, page, up == marks.anchors.end() ? std::string() : up->words,
                     layout.words, page.column && layout.column.empty(), ruler);
  }
  if (page.column && !layout.column.empty()) {
    page::draw_column(drawing, *page.column, layout.column, page.unit,
                      layout.form == PageForm::wide, ruler);
  }
  page::draw_rule(drawing, page, layout.rule, ruler);

  // Who decides stands on every page, whatever else there is room for.
  Lettering small{layout.form == PageForm::folded ? 11.5 : 13, FontWeight::regular, ink::quiet_text,
                  1.3};
  while (small.size_px > 5 && (words_height(ruler, page.words.label, small, layout.label.width_px) >
                                   layout.label.height_px ||
                               !words_fit(ruler, page.words.label, small, layout.label.width_px))) {
    small.size_px -= 0.5;
  }
  const double high = words_height(ruler, page.words.label, small, layout.label.width_px);
  put_words(drawing, ruler, page.words.label, small, layout.label.x_px,
            layout.label.y_px + (layout.label.height_px - high) / 2, layout.label.width_px);
  return drawing;
}

} // namespace lugline

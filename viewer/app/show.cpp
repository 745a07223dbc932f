#include "viewer/app/show.h"

#include "viewer/app/hint.h"
#include "viewer/app/keys.h"
#include "viewer/panels/apart.h"
#include "viewer/panels/faults.h"
#include "viewer/panels/figures.h"
#include "viewer/panels/measuring.h"
#include "viewer/panels/settings.h"
#include "viewer/panels/steps.h"

#include <epoxy/gl.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <utility>

namespace lugline {

namespace {

std::vector<FootWord> foot_words(PanelKind open) {
  return {{"keys", "F1", wish::Show{PanelKind::keys}, open == PanelKind::keys},
          {"steps", "L", wish::Show{PanelKind::steps}, open == PanelKind::steps},
          {"measuring", "M", wish::Show{PanelKind::measuring}, open == PanelKind::measuring},
          {"figures", "P", wish::Show{figures_of(open) ? open : PanelKind::pack},
           figures_of(open).has_value()},
          {"settings", "F2", wish::Show{PanelKind::settings}, open == PanelKind::settings}};
}

std::vector<StepLine> step_lines(const Stage& stage) {
  std::vector<StepLine> lines;
  for (const RuleTick& tick : stage.rule()) {
    lines.push_back({tick.chapter_starts ? tick.chapter : std::string(),
                     stage.unit().steps[tick.step].do_text, tick.fails});
  }
  return lines;
}

} // namespace

Outcome<std::unique_ptr<Show>> Show::create(Glass& glass) {
  auto artist = PageArtist::create();
  if (!artist) {
    return Problem{artist.problem()};
  }
  return std::unique_ptr<Show>(new Show(glass, std::move(artist).value()));
}

Show::Show(Glass& glass, PageArtist artist) : glass_(&glass), artist_(std::move(artist)) {}

double Show::scale_for(const Settings& settings) const {
  // A page smaller than this cannot be laid out, whatever was asked for.
  constexpr double least_width_px = 400;
  constexpr double least_height_px = 300;
  return std::min({settings.scale * glass_->content_scale(), glass_->width_px() / least_width_px,
                   glass_->height_px() / least_height_px});
}

PageInput Show::page_for(const Sitting& sitting, const PanelStyle& style, bool opening) const {
  const AppState& state = sitting.state();
  const double width = glass_->width_px();
  const double height = glass_->height_px();
  const double scale = scale_for(state.view.settings);
  PageInput page;
  if (sitting.stage() == nullptr) {
    page.width_px = width;
    page.height_px = height;
    page.scale = scale;
    page.words.to_do = opening ? "Reading the unit's files" : "No unit is open.";
    page.words.know = opening ? "Ctrl+Q closes the window." : "";
  } else {
    page = page_of(*sitting.stage(), state.view, width, height, scale);
    page.hint = hint_for(state, sitting.facts());
  }
  if (figures_of(state.panel)) {
    page = without_step(std::move(page));
  }
  page.notes = sitting.notes();
  page.covered = state.panel != PanelKind::none || (sitting.stage() == nullptr && !opening);
  page.slider = state.view.explode > 0 && !figures_of(state.panel);
  if (sitting.stage() != nullptr) {
    const std::vector<FootWord> words = foot_words(state.panel);
    const float room = static_cast<float>(width / glass_->px_per_coordinate()) - 280 * style.scale;
    std::size_t count = words.size();
    while (count > 1 && foot_width(words, count, style) > room) {
      --count;
    }
    page.foot_buttons_px =
        std::ceil(static_cast<double>(foot_width(words, count, style) / style.scale)) + 1;
  }
  return page;
}

Outcome<Wishes> Show::frame(const Sitting& sitting, const std::string& folder, bool opening,
                            bool rough, double now_s) {
  const double scale =
      page_scale(glass_->width_px(), glass_->height_px(), scale_for(sitting.state().view.settings));
  const auto dressed = glass_->dress(scale / glass_->px_per_coordinate());
  if (!dressed) {
    return Problem{dressed.problem()};
  }
  const PanelStyle& style = dressed.value();
  page_ = page_for(sitting, style, opening);
  layout_ = lay_out(page_);
  Picture picture;
  work_out_figures(sitting);
  const Stage* stage = sitting.stage();
  if (stage != nullptr && !asked_) {
    ViewState view = sitting.state().view;
    for (const PictureItem& item : picture_.items) {
      if (item.outline) {
        view.seen_through.push_back(item.id);
      }
    }
    picture = ease_.shown(stage->picture(view, aspect_of(layout_)), view.step,
                          stage->unit().steps[view.step].place, view.settings.motion, now_s);
  }
  draw_page_anew(page_, picture, sitting.stage(), rough);
  glBindFramebuffer(GL_READ_FRAMEBUFFER, target_->framebuffer());
  glBindFramebuffer(GL_DRAW_FRAMEBUFFER, 0);
  glBlitFramebuffer(0, 0, target_width_, target_height_, 0, 0, target_width_, target_height_,
                    GL_COLOR_BUFFER_BIT, GL_NEAREST);
  glBindFramebuffer(GL_FRAMEBUFFER, 0);
  glViewport(0, 0, target_width_, target_height_);
  glass_->begin_panels();
  Wishes wishes = panels(sitting, folder, style);
  glass_->end_panels();
  return wishes;
}

void Show::draw_page_anew(const PageInput& page, const Picture& picture, const Stage* stage,
                          bool rough) {
  const int width = std::max(glass_->width_px(), 1);
  const int height = std::max(glass_->height_px(), 1);
  if (target_ == nullptr || target_width_ != width || target_height_ != height) {
    target_ = std::make_unique<OffscreenTarget>(width, height);
    target_width_ = width;
    target_height_ = height;
    drawn_.reset();
  }
  DrawOptions options;
  options.scale = layout_.scale;
  options.quality = rough ? pace_.quality() : still_quality;
  options.emphasised_pick = hovered_;
  // Without its anchors, which the picture alone decides.
  Drawing2d flat = draw_page(page, layout_, {}, artist_.fonts());
  if (asked_) {
    sheet_ = draw_figures(figures_, figures_sheet(layout_, true), page.unit, artist_.fonts());
    flat.shapes.insert(flat.shapes.end(), sheet_.drawing.shapes.begin(),
                       sheet_.drawing.shapes.end());
  }
  Drawn now{text_of(picture), flat, stage, hovered_, layout_.scale, rough};
  if (drawn_ == now) {
    return;
  }
  picture_ = picture;
  const auto begun = std::chrono::steady_clock::now();
  if (picture.items.empty()) {
    artist_.draw_paper(target_->framebuffer(), page, layout_);
    artist_.paint(target_->framebuffer(), page, layout_, flat);
  } else {
    artist_.draw(target_->framebuffer(), page, layout_, picture, options);
  }
  if (rough) {
    // Only what is wholly drawn has been measured.
    glFinish();
    const std::chrono::duration<double, std::milli> took = std::chrono::steady_clock::now() - begun;
    pace_.moved(took.count());
  }
  drawn_ = std::move(now);
  ++pages_drawn_;
}

void Show::work_out_figures(const Sitting& sitting) {
  const AppState& state = sitting.state();
  const auto kind = figures_of(state.panel);
  if (!kind || sitting.stage() == nullptr) {
    asked_.reset();
    return;
  }
  const Asked now{*kind, state.view.figures, state.view.settings.unit, sitting.stage(),
                  state.actions.size()};
  if (asked_ != now) {
    figures_ = figures_page(*sitting.stage(), state.view, *kind);
    asked_ = now;
  }
}

std::optional<Wish> Show::figures_wish(PointPx mouse) const {
  if (!asked_) {
    return std::nullopt;
  }
  const PointPx at{mouse.x_px / layout_.scale, mouse.y_px / layout_.scale};
  for (const DrawnTrain::Place& place : sheet_.places) {
    if (place.box.holds(at)) {
      return wish::SwitchElement{place.element};
    }
  }
  return std::nullopt;
}

Wishes Show::panels(const Sitting& sitting, const std::string& folder, const PanelStyle& style) {
  const AppState& state = sitting.state();
  // From the page's pixels at scale 1 to Dear ImGui's coordinates.
  const double by = layout_.scale / glass_->px_per_coordinate();
  const auto area_of = [by](const Box& box) {
    return PanelArea{static_cast<float>(box.x_px * by), static_cast<float>(box.y_px * by),
                     static_cast<float>(box.width_px * by), static_cast<float>(box.height_px * by)};
  };
  Wishes wishes;
  const auto add = [&wishes](Wishes more) {
    wishes.insert(wishes.end(), std::make_move_iterator(more.begin()),
                  std::make_move_iterator(more.end()));
  };
  const PanelArea side = area_of({0, 0, layout_.picture.x_px, layout_.rule.y_px - 16});
  const Stage* stage = sitting.stage();
  if (stage == nullptr) {
    if (!sitting.complaints().empty()) {
      const PanelArea all = area_of({0, 0, layout_.width_px, layout_.height_px});
      add(faults_panel(sitting.complaints(), folder, false, all, style));
    }
    return wishes;
  }
  switch (state.panel) {
  case PanelKind::steps:
    add(steps_panel(step_lines(*stage), state.view.step, side, style));
    break;
  case PanelKind::measuring:
    add(measuring_panel(measuring_sheets(*stage, state.view),
                        {state.entry.part, state.entry.text, state.entry.problem},
                        state.view.settings.unit, side, style));
    break;
  case PanelKind::settings:
    add(settings_panel(state.view.settings,
                       {"What you do is kept in " + sitting.log().string() + "."}, side, style));
    break;
  case PanelKind::keys:
    add(keys_panel(key_lines(), side, style));
    break;
  case PanelKind::faults:
    add(faults_panel(sitting.complaints(), folder, true, side, style));
    break;
  case PanelKind::pack:
  case PanelKind::play:
  case PanelKind::train:
  case PanelKind::air:
    add(figures_panel(figures_, state.view.figures, side, style));
    break;
  case PanelKind::none:
    break;
  }
  if (state.view.explode > 0 && !asked_) {
    add(apart_panel(state.view.explode, area_of(layout_.slider), style));
  }
  add(foot_panel(foot_words(state.panel), area_of(layout_.buttons), style));
  return wishes;
}

PointerScene Show::scene(const Sitting& sitting, PointPx mouse) const {
  PointerScene scene;
  scene.layout = layout_;
  scene.steps = sitting.stage() == nullptr ? 0 : sitting.stage()->step_count();
  scene.picked_up = sitting.state().picked_up;
  const Camera& camera = picture_.camera;
  scene.m_per_px = 2 * camera.distance_m * std::tan(camera.fov_rad / 2) /
                   std::max(layout_.picture.height_px * layout_.scale, 1.0);
  const std::uint32_t under = artist_.pick(layout_, mouse.x_px, mouse.y_px);
  const auto item = std::ranges::find(picture_.items, under, &PictureItem::pick);
  scene.on_part_in_hand = under != 0 && item != picture_.items.end() && item->role == Role::in_hand;
  return scene;
}

bool Show::hover(PointPx mouse) {
  const std::uint32_t under =
      picture_.items.empty() ? 0 : artist_.pick(layout_, mouse.x_px, mouse.y_px);
  return std::exchange(hovered_, under) != under;
}

Image Show::read_window() const {
  Image image;
  image.width_px = target_width_;
  image.height_px = target_height_;
  const std::size_t row = static_cast<std::size_t>(target_width_) * 4;
  std::vector<std::uint8_t> bytes(row * static_cast<std::size_t>(target_height_));
  glBindFramebuffer(GL_READ_FRAMEBUFFER, 0);
  glPixelStorei(GL_PACK_ALIGNMENT, 1);
  glReadPixels(0, 0, target_width_, target_height_, GL_RGBA, GL_UNSIGNED_BYTE, bytes.data());
  image.rgba.resize(bytes.size());
  for (std::size_t y = 0; y < static_cast<std::size_t>(target_height_); ++y) {
    const std::size_t from = (static_cast<std::size_t>(target_height_) - 1 - y) * row;
    std::copy_n(bytes.begin() + static_cast<std::ptrdiff_t>(from), row,
                image.rgba.begin() + static_cast<std::ptrdiff_t>(y * row));
  }
  // What lies behind the window is no part of the picture.
  for (std::size_t i = 3; i < image.rgba.size(); i += 4) {
    image.rgba[i] = 255;
  }
  return image;
}

} // namespace lugline

#include "viewer/cli/commands.h"
#include "viewer/cli/print.h"

#include "scene/load/load.h"
#include "viewer/app/page_artist.h"
#include "viewer/draw/gl_context.h"
#include "viewer/draw/painter.h"
#include "viewer/draw/renderer.h"
#include "viewer/draw/text.h"
#include "viewer/stage/stage.h"

#include <algorithm>
#include <ostream>

namespace lugline::cli {

namespace {

/// Words that can be read at 1366x768 are as large in proportion on a larger page.
double scale_for(const DrawOptions& options) {
  if (options.scale > 0) {
    return options.scale;
  }
  const double larger = std::min(options.width / 1366.0, options.height / 768.0);
  return std::clamp(larger, 1.0, 2.5);
}

/// The picture with no words but whose figures they are, and who decides.
Outcome<Image> picture_alone(const DrawOptions& options, const Stage& stage,
                             const ViewState& view) {
  auto renderer = Renderer::create();
  if (!renderer) {
    return Problem{renderer.problem()};
  }
  auto fonts = Fonts::load();
  if (!fonts) {
    return Problem{fonts.problem()};
  }
  auto painter = Painter::create(std::move(fonts).value());
  if (!painter) {
    return Problem{painter.problem()};
  }
  const double scale = scale_for(options);
  lugline::DrawOptions look;
  look.scale = scale;
  const OffscreenTarget target(options.width, options.height);
  Renderer drawing = std::move(renderer).value();
  const double aspect = static_cast<double>(options.width) / options.height;
  drawing.draw_into(target.framebuffer(), target.viewport(), stage.picture(view, aspect), look);
  TextShape label;
  label.words = stage.words(view).label;
  label.at = {10, options.height / scale - 10};
  label.size_px = 12;
  label.colour = ink::quiet_text;
  Drawing2d words;
  words.add(label);
  Painter painting = std::move(painter).value();
  painting.paint(words, target.framebuffer(), target.viewport(), scale);
  return target.read();
}

/// The whole page, or the picture alone.
Outcome<Image> drawn(const DrawOptions& options, const Stage& stage, const ViewState& view) {
  if (!options.picture_only) {
    auto artist = PageArtist::create();
    if (!artist) {
      return Problem{artist.problem()};
    }
    PageArtist page = std::move(artist).value();
    return page_image(page, stage, view, options.width, options.height, scale_for(options));
  }
  return picture_alone(options, stage, view);
}

} // namespace

int draw(const DrawOptions& options, Streams streams) {
  const LoadReport loaded = load_unit(options.unit);
  if (!loaded.unit) {
    return not_loaded(loaded, false, streams);
  }
  const Unit& unit = *loaded.unit;
  const Stage stage(loaded.unit);
  ViewState view;
  view.step = options.step.empty() ? unit.steps.size() - 1 : unit.step_index(options.step);
  if (view.step >= unit.steps.size()) {
    return refuse("draw", no_such("step", options.step, step_ids(unit)), streams);
  }
  view.moment = options.moment;
  view.explode = options.explode;
  view.settings.unit = options.inch ? LengthUnit::inch : LengthUnit::millimetre;
  view.settings.scale = scale_for(options);
  view.settings.cut = !options.no_cut;
  view.settings.print_look = options.print_look;
  view.settings.axis_level = options.level;
  view.settings.own_materials = options.materials;

  auto context = GlContext::make();
  if (!context) {
    return refuse("draw", context.problem(), streams);
  }
  const auto image = drawn(options, stage, view);
  if (!image) {
    return refuse("draw", image.problem(), streams);
  }
  const auto written = write_png(image.value(), options.output);
  if (!written) {
    return refuse("draw", written.problem(), streams);
  }
  return sound;
}

} // namespace lugline::cli

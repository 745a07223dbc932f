#include "viewer/cli/commands.h"
#include "viewer/cli/print.h"

#include "scene/load/load.h"
#include "viewer/app/page_artist.h"
#include "viewer/draw/gl_context.h"
#include "viewer/draw/renderer.h"
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
  auto renderer = Renderer::create();
  if (!renderer) {
    return Problem{renderer.problem()};
  }
  lugline::DrawOptions look;
  look.scale = scale_for(options);
  Renderer drawing = std::move(renderer).value();
  const double aspect = static_cast<double>(options.width) / options.height;
  return drawing.draw(stage.picture(view, aspect), options.width, options.height, look);
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

#include "viewer/cli/commands.h"
#include "viewer/cli/print.h"

#include "scene/load/load.h"
#include "viewer/draw/gl_context.h"
#include "viewer/draw/renderer.h"
#include "viewer/stage/stage.h"

#include <ostream>

namespace lugline::cli {

int draw(const DrawOptions& options, Streams streams) {
  const LoadReport loaded = load_unit(options.unit);
  if (!loaded.unit) {
    print_complaints(streams.err, loaded.complaints);
    return not_sound;
  }
  const Unit& unit = *loaded.unit;
  const Stage stage(loaded.unit);
  ViewState view;
  view.step = options.step.empty() ? unit.steps.size() - 1 : unit.step_index(options.step);
  if (view.step >= unit.steps.size()) {
    std::vector<std::string> known;
    for (const Step& step : unit.steps) {
      known.push_back(step.id);
    }
    const std::string near = nearest_name(options.step, known);
    streams.err << "lugline draw: there is no step " << options.step
                << (near.empty() ? "" : "; did you mean " + near + "?") << "\n";
    return bad_command;
  }
  view.moment = options.moment;
  view.explode = options.explode;
  view.settings.unit = options.inch ? LengthUnit::inch : LengthUnit::millimetre;
  view.settings.scale = options.scale;
  view.settings.cut = !options.no_cut;
  view.settings.print_look = options.print_look;

  auto context = GlContext::make();
  if (!context) {
    streams.err << "lugline draw: " << context.problem() << "\n";
    return bad_command;
  }
  auto renderer = Renderer::create();
  if (!renderer) {
    streams.err << "lugline draw: " << renderer.problem() << "\n";
    return bad_command;
  }
  lugline::DrawOptions look;
  look.scale = options.scale;
  Renderer drawing = std::move(renderer).value();
  const Image image =
      drawing.draw(stage.picture(view, static_cast<double>(options.width) / options.height),
                   options.width, options.height, look);
  const auto written = write_png(image, options.output);
  if (!written) {
    streams.err << "lugline draw: " << written.problem() << "\n";
    return bad_command;
  }
  return sound;
}

} // namespace lugline::cli

#include "viewer/cli/commands.h"
#include "viewer/cli/page_scale.h"
#include "viewer/cli/print.h"

#include "scene/load/load.h"
#include "viewer/app/page_artist.h"
#include "viewer/draw/gl_context.h"
#include "viewer/draw/painter.h"
#include "viewer/draw/renderer.h"
#include "viewer/draw/text.h"
#include "viewer/stage/stage.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <ostream>

namespace lugline::cli {

namespace {

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
  const double scale = page_scale_for(options.scale, options.width, options.height);
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
Outcome<Image> drawn(const DrawOptions& options, const Stage& stage, const ViewState& view,
                     std::optional<FiguresKind> figures) {
  if (figures || !options.picture_only) {
    auto artist = PageArtist::create();
    if (!artist) {
      return Problem{artist.problem()};
    }
    PageArtist page = std::move(artist).value();
    if (figures) {
      return figures_image(page, stage, view, *figures, options.width, options.height,
                           page_scale_for(options.scale, options.width, options.height));
    }
    return page_image(page, stage, view, options.width, options.height,
                      page_scale_for(options.scale, options.width, options.height));
  }
  return picture_alone(options, stage, view);
}

/// What a view of figures is asked to show; a Problem where it is none.
Outcome<FiguresKind> choose_figures(const DrawOptions& options, const Unit& unit,
                                    FiguresChoice& choice) {
  const std::size_t colon = options.figures.find(':');
  const std::string word = options.figures.substr(0, colon);
  const std::string id = colon == std::string::npos ? "" : options.figures.substr(colon + 1);
  const std::optional<FiguresKind> kind = figures_kind_from(word);
  if (!kind) {
    return Problem{"there is no view of figures " + word + "; there are pack, play, train and air"};
  }
  const FiguresLists lists = figures_lists(unit);
  const auto pick = [&](const std::vector<std::string>& known, std::string& chosen) {
    chosen = id;
    return id.empty() || std::ranges::find(known, id) != known.end();
  };
  const std::vector<std::string>& known = *kind == FiguresKind::pack    ? lists.packs
                                          : *kind == FiguresKind::play  ? lists.plays
                                          : *kind == FiguresKind::train ? lists.ranges
                                                                        : lists.air;
  std::string& chosen = *kind == FiguresKind::pack    ? choice.pack
                        : *kind == FiguresKind::play  ? choice.play
                        : *kind == FiguresKind::train ? choice.range
                                                      : choice.element;
  if (!pick(known, chosen)) {
    const char* what = *kind == FiguresKind::train ? "range"
                       : *kind == FiguresKind::air ? "element with a piston"
                                                   : word.c_str();
    return Problem{no_such(what, id, known)};
  }
  choice.working = options.working;
  const auto read = [](const std::string& text, Dimension dimension,
                       std::optional<double>& si) -> std::string {
    if (text.empty()) {
      return {};
    }
    const Outcome<Quantity> quantity = parse_quantity(text, dimension);
    if (!quantity) {
      return quantity.problem();
    }
    si = quantity.value().si;
    return {};
  };
  std::optional<double> held_s;
  for (const std::string& problem : {read(options.input, Dimension::torque, choice.input_Nm.si),
                                     read(options.pressure, Dimension::pressure, choice.air_Pa.si),
                                     read(options.held, Dimension::time, held_s)}) {
    if (!problem.empty()) {
      return Problem{problem};
    }
  }
  choice.coasting = choice.input_Nm.si.value_or(0) < 0;
  if (choice.input_Nm.si) {
    choice.input_Nm.si = std::abs(*choice.input_Nm.si);
  }
  choice.watch_s = std::max(held_s.value_or(0), 0.0);
  return *kind;
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
  view.settings.scale = page_scale_for(options.scale, options.width, options.height);
  view.settings.cut = !options.no_cut;
  view.settings.print_look = options.print_look;
  view.settings.axis_level = options.level;
  view.settings.own_materials = options.materials;
  view.settings.hidden_edges = options.hidden;
  view.settings.see_through = options.see_through ? SeeThrough::always
                              : options.solid     ? SeeThrough::off
                                                  : SeeThrough::automatic;

  std::optional<FiguresKind> kind;
  if (!options.figures.empty()) {
    const auto chosen = choose_figures(options, unit, view.figures);
    if (!chosen) {
      return refuse("draw", chosen.problem(), streams);
    }
    kind = chosen.value();
  }
  auto context = GlContext::make();
  if (!context) {
    return refuse("draw", context.problem(), streams);
  }
  const auto image = drawn(options, stage, view, kind);
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

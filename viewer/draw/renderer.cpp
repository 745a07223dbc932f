#include "viewer/draw/renderer.h"

#include "viewer/draw/anchor_probe.h"
#include "viewer/draw/arrow.h"
#include "viewer/draw/cap_store.h"
#include "viewer/draw/crevice_pass.h"
#include "viewer/draw/detail.h"
#include "viewer/draw/frame.h"
#include "viewer/draw/gl.h"
#include "viewer/draw/ink_pass.h"
#include "viewer/draw/marks.h"
#include "viewer/draw/mesh_store.h"
#include "viewer/draw/ribbon_pass.h"
#include "viewer/draw/solid_pass.h"

#include <algorithm>
#include <cassert>
#include <chrono>
#include <cmath>
#include <cstring>
#include <numbers>

namespace lugline {

WedgePlanes wedge_of(const Cut& cut) {
  WedgePlanes wedge;
  double width = std::fmod(cut.to_rad - cut.from_rad, 2 * std::numbers::pi);
  if (width < 0)
    width += 2 * std::numbers::pi;
  if (!cut.on || width < 1e-9)
    return wedge;
  wedge.kind = width <= std::numbers::pi ? 1 : 2;
  wedge.planes = glm::vec4(-std::cos(cut.from_rad), -std::sin(cut.from_rad), -std::cos(cut.to_rad),
                           -std::sin(cut.to_rad));
  return wedge;
}

bool in_wedge(const Cut& cut, const glm::dvec3& point_m) {
  const WedgePlanes wedge = wedge_of(cut);
  const double from = point_m.x * double{wedge.planes.x} + point_m.y * double{wedge.planes.y};
  const double to = point_m.x * double{wedge.planes.z} + point_m.y * double{wedge.planes.w};
  switch (wedge.kind) {
  case 1:
    return from > 0 && to < 0;
  case 2:
    return from > 0 || to < 0;
  default:
    return false;
  }
}

void TouchedArea::scissor(int fine, const glm::ivec2& origin_px) const {
  glEnable(GL_SCISSOR_TEST);
  glScissor(origin_px.x + left * fine, origin_px.y + low * fine, std::max(right - left, 0) * fine,
            std::max(high - low, 0) * fine);
}

namespace {

/// The rectangle around what can be seen, with room for the widest line.
TouchedArea touched_area(const View& view, const std::vector<glm::dvec3>& reach, double scale) {
  glm::dvec2 low(view.width_px, view.height_px);
  glm::dvec2 high(0, 0);
  for (const glm::dvec3& point : reach) {
    const std::optional<glm::dvec2> px = view.on_screen(point);
    if (!px)
      return {0, 0, view.width_px, view.height_px};
    low = glm::min(low, *px);
    high = glm::max(high, *px);
  }
  const double room = 4 + 4 * scale;
  const auto whole = [](double v, int most) {
    return static_cast<int>(std::clamp(v, 0.0, static_cast<double>(most)));
  };
  return {whole(std::floor(low.x - room), view.width_px),
          whole(std::floor(view.height_px - high.y - room), view.height_px),
          whole(std::ceil(high.x + room), view.width_px),
          whole(std::ceil(view.height_px - low.y + room), view.height_px)};
}

/// Tells how long each pass took, where somebody wants to know.
class PassClock {
public:
  explicit PassClock(const DrawOptions& options) : tell_(options.time) {
    if (tell_)
      glFinish();
  }
  void done(const char* pass) {
    if (!tell_)
      return;
    glFinish();
    const auto now = std::chrono::steady_clock::now();
    tell_(pass, std::chrono::duration<double, std::milli>(now - since_).count());
    since_ = now;
  }

private:
  const std::function<void(const char*, double)>& tell_;
  std::chrono::steady_clock::time_point since_ = std::chrono::steady_clock::now();
};

} // namespace

struct Renderer::Inner {
  SolidPass solid;
  CrevicePass crevice;
  InkPass ink;
  RibbonPass ribbons;
  AnchorProbe probe;
  GlVertexArray empty;
  MeshStore meshes;
  CapStore caps;
  DetailStore details;
  GLint widest = 4096;

  std::vector<ScreenAnchor> anchors;
  std::vector<std::string> unclosed;
  std::vector<std::uint32_t> pick_of_id; ///< of the last frame
  double last_fine = 1;                  ///< buffer's pixels for one of the picture
  std::unique_ptr<OffscreenTarget> half;
  int last_width = 0;
  int last_height = 0;

  Inner(SolidPass s, CrevicePass c, InkPass i, RibbonPass r, AnchorProbe p)
      : solid(std::move(s)), crevice(std::move(c)), ink(std::move(i)), ribbons(std::move(r)),
        probe(std::move(p)), empty(GlVertexArray::make()) {
    glGetIntegerv(GL_MAX_TEXTURE_SIZE, &widest);
  }

  Frame frame_of(const Picture& picture, const Viewport& viewport, const DrawOptions& options);
  void give_ids(Frame& frame, const DrawOptions& options);
  void draw_marks(const Frame& frame, const glm::ivec2& origin);
  void draw_hidden(const Frame& frame, unsigned framebuffer, const Viewport& viewport);
};

Frame Renderer::Inner::frame_of(const Picture& picture, const Viewport& viewport,
                                const DrawOptions& options) {
  Frame frame;
  frame.picture = &picture;
  frame.options = options;
  frame.options.scale = std::clamp(options.scale, 0.5, 6.0);
  frame.fine = options.quality.supersample >= 2 ? 2 : 1;
  if (2 * std::max(viewport.width_px, viewport.height_px) > widest)
    frame.fine = 1;
  std::vector<glm::dvec3> reach;
  for (const PictureItem& item : picture.items) {
    if (item.mesh == nullptr || item.mesh->triangles.empty())
      continue;
    FrameItem made;
    made.item = &item;
    made.stored = &meshes.at(item.mesh);
    made.place = place_from_part(item.pose);
    made.cut = item.cut && picture.cut.on && wedge_of(picture.cut).kind != 0;
    frame.items.push_back(made);
    const auto corners = corners_of(made.stored->bounds, item.pose, item.stretch);
    reach.insert(reach.end(), corners.begin(), corners.end());
  }
  frame.view = view_of(picture.camera, viewport.width_px, viewport.height_px, reach);
  if (picture.up) {
    const glm::dmat4 place = arrow_place(*picture.up, item_named(frame, picture.up->item), frame);
    for (const glm::dvec4& corner : {glm::dvec4(-0.25, -0.25, 0, 1), glm::dvec4(0.25, 0.25, 1, 1),
                                     glm::dvec4(0.25, -0.25, 1, 1), glm::dvec4(-0.25, 0.25, 1, 1)})
      reach.emplace_back(place * corner);
    frame.view = view_of(picture.camera, viewport.width_px, viewport.height_px, reach);
  }
  frame.touched = touched_area(frame.view, reach, frame.options.scale);
  return frame;
}

void Renderer::Inner::give_ids(Frame& frame, const DrawOptions& options) {
  std::stable_partition(frame.items.begin(), frame.items.end(),
                        [](const FrameItem& item) { return item.item->role == Role::in_hand; });
  pick_of_id.assign(1, 0);
  for (FrameItem& item : frame.items) {
    if (thin(*item.item))
      continue;
    const int id = static_cast<int>(pick_of_id.size());
    // Beyond what the buffer can hold parts share the last id: drawn, not picked apart.
    item.id = std::min(id, most_ids - 1);
    if (id < most_ids)
      pick_of_id.push_back(item.item->pick);
    if (item.item->role == Role::in_hand)
      frame.in_hand_count = item.id;
    if (options.emphasised_pick != 0 && item.item->pick == options.emphasised_pick)
      frame.emphasised_id = item.id;
  }
  if (frame.picture->up)
    frame.arrow_id = most_ids;
}

void Renderer::Inner::draw_marks(const Frame& frame, const glm::ivec2& origin) {
  Marks marks;
  add_ghosts(frame, marks);
  add_keys(frame, marks);
  add_fall(frame, marks);
  add_turn(frame, marks);
  const bool ghosts = std::any_of(frame.items.begin(), frame.items.end(),
                                  [](const auto& item) { return thin(*item.item); });
  ribbons.draw(frame, marks.ribbons, marks.patches, solid.buffers(),
               ghosts ? &solid.ghost_depth() : nullptr, origin);
}

/// Dashed lines stand behind others only, never behind the part in hand itself: its own depth
/// says where.
void Renderer::Inner::draw_hidden(const Frame& frame, unsigned framebuffer,
                                  const Viewport& viewport) {
  Marks marks;
  add_hidden(frame, marks);
  if (marks.ribbons.empty())
    return;
  solid.draw_ghost_depth(frame, [](const PictureItem& item) { return item.role == Role::in_hand; });
  glBindFramebuffer(GL_FRAMEBUFFER, framebuffer);
  glViewport(viewport.x_px, viewport.y_px, viewport.width_px, viewport.height_px);
  ribbons.draw(frame, marks.ribbons, marks.patches, solid.buffers(), &solid.ghost_depth(),
               {viewport.x_px, viewport.y_px});
}

Renderer::Renderer(std::unique_ptr<Inner> inner) : inner_(std::move(inner)) {}
Renderer::Renderer(Renderer&&) noexcept = default;
Renderer& Renderer::operator=(Renderer&&) noexcept = default;
Renderer::~Renderer() = default;

Outcome<Renderer> Renderer::create() {
  auto solid = SolidPass::create();
  if (!solid)
    return Problem{solid.problem()};
  auto crevice = CrevicePass::create();
  if (!crevice)
    return Problem{crevice.problem()};
  auto ink = InkPass::create();
  if (!ink)
    return Problem{ink.problem()};
  auto ribbons = RibbonPass::create();
  if (!ribbons)
    return Problem{ribbons.problem()};
  auto probe = AnchorProbe::create();
  if (!probe)
    return Problem{probe.problem()};
  return Renderer(std::make_unique<Inner>(std::move(solid).value(), std::move(crevice).value(),
                                          std::move(ink).value(), std::move(ribbons).value(),
                                          std::move(probe).value()));
}

Image Renderer::draw(const Picture& picture, int width_px, int height_px,
                     const DrawOptions& options) {
  const OffscreenTarget target(width_px, height_px);
  draw_into(target.framebuffer(), target.viewport(), picture, options);
  return target.read();
}

void Renderer::draw_into(unsigned framebuffer, const Viewport& viewport, const Picture& picture,
                         const DrawOptions& options) {
  assert(viewport.width_px > 0 && viewport.height_px > 0);
  if (options.quality.half_pixels) {
    draw_half(framebuffer, viewport, picture, options);
    return;
  }
  Inner& in = *inner_;
  in.unclosed.clear();
  in.caps.begin_frame();
  in.details.begin_frame();
  PassClock clock(options);
  Frame frame = in.frame_of(picture, viewport, options);
  in.give_ids(frame, options);

  clock.done("frame's list");
  in.solid.draw(frame, in.caps, in.details, in.unclosed);
  clock.done("solids and caps");
  const bool ghosts = std::any_of(frame.items.begin(), frame.items.end(),
                                  [](const auto& item) { return thin(*item.item); });
  if (ghosts)
    in.solid.draw_ghost_depth(frame, thin);
  in.ink.mark_edges(frame, in.solid.buffers(), in.empty);
  clock.done("edges and ghosts");
  const bool shaded = options.quality.crevices;
  if (shaded)
    in.crevice.draw(frame, in.solid.buffers(), in.ink.marks(), in.empty);
  clock.done("crevices");

  std::vector<PlacedAnchor> placed = place_anchors(frame);
  in.probe.judge(frame, in.solid.buffers(), in.empty, placed);
  in.anchors.clear();
  for (const PlacedAnchor& anchor : placed)
    in.anchors.push_back(anchor.anchor);

  clock.done("anchors");
  glBindFramebuffer(GL_FRAMEBUFFER, framebuffer);
  glViewport(viewport.x_px, viewport.y_px, viewport.width_px, viewport.height_px);
  const glm::ivec2 origin(viewport.x_px, viewport.y_px);
  in.ink.compose(frame, in.solid.buffers(), shaded ? &in.crevice.result() : nullptr, origin,
                 in.empty);
  clock.done("ink onto paper");
  if (picture.hidden_edges)
    in.draw_hidden(frame, framebuffer, viewport);
  in.draw_marks(frame, origin);
  clock.done("ghosts and marks");
  glBindVertexArray(0);
  glUseProgram(0);
  glActiveTexture(GL_TEXTURE0);
  in.meshes.sweep();
  in.caps.sweep();
  in.details.sweep();
  in.last_fine = frame.fine;
  in.last_width = viewport.width_px;
  in.last_height = viewport.height_px;
}

void Renderer::draw_half(unsigned framebuffer, const Viewport& viewport, const Picture& picture,
                         const DrawOptions& options) {
  Inner& in = *inner_;
  const int width = (viewport.width_px + 1) / 2;
  const int height = (viewport.height_px + 1) / 2;
  if (in.half == nullptr || in.half->viewport().width_px != width ||
      in.half->viewport().height_px != height)
    in.half = std::make_unique<OffscreenTarget>(width, height);
  DrawOptions small = options;
  small.quality.half_pixels = false;
  small.quality.coarse_px /= 2;
  small.scale /= 2;
  draw_into(in.half->framebuffer(), in.half->viewport(), picture, small);
  for (ScreenAnchor& anchor : in.anchors) {
    anchor.x_px *= 2;
    anchor.y_px *= 2;
  }
  in.last_fine /= 2;
  in.last_width = viewport.width_px;
  in.last_height = viewport.height_px;
  glBindFramebuffer(GL_READ_FRAMEBUFFER, in.half->framebuffer());
  glBindFramebuffer(GL_DRAW_FRAMEBUFFER, framebuffer);
  glDisable(GL_SCISSOR_TEST);
  glBlitFramebuffer(0, 0, width, height, viewport.x_px, viewport.y_px,
                    viewport.x_px + viewport.width_px, viewport.y_px + viewport.height_px,
                    GL_COLOR_BUFFER_BIT, GL_LINEAR);
  glBindFramebuffer(GL_FRAMEBUFFER, framebuffer);
  glViewport(viewport.x_px, viewport.y_px, viewport.width_px, viewport.height_px);
}

std::uint32_t Renderer::pick(int x_px, int y_px) const {
  const Inner& in = *inner_;
  if (x_px < 0 || y_px < 0 || x_px >= in.last_width || y_px >= in.last_height)
    return 0;
  glBindFramebuffer(GL_READ_FRAMEBUFFER, in.solid.buffers().framebuffer.name());
  glReadBuffer(GL_COLOR_ATTACHMENT1);
  std::uint8_t surface[4] = {};
  const auto buffer_px = [&](int px) { return static_cast<int>(px * in.last_fine); };
  glReadPixels(buffer_px(x_px), buffer_px(in.last_height - 1 - y_px), 1, 1, GL_RGBA,
               GL_UNSIGNED_BYTE, surface);
  glReadBuffer(GL_COLOR_ATTACHMENT0);
  glBindFramebuffer(GL_READ_FRAMEBUFFER, 0);
  const std::size_t id = static_cast<std::size_t>(surface[2] * 256 + surface[3]) / code_step;
  return id < in.pick_of_id.size() ? in.pick_of_id[id] : 0;
}

const std::vector<ScreenAnchor>& Renderer::anchors() const {
  return inner_->anchors;
}
const std::vector<std::string>& Renderer::unclosed() const {
  return inner_->unclosed;
}

struct OffscreenTarget::Inner {
  GlTexture colour;
  GlFramebuffer framebuffer;
  int width = 0;
  int height = 0;
};

OffscreenTarget::OffscreenTarget(int width_px, int height_px) : inner_(std::make_unique<Inner>()) {
  assert(width_px > 0 && height_px > 0);
  inner_->width = width_px;
  inner_->height = height_px;
  inner_->colour = make_texture(TexelKind::rgba8, width_px, height_px, false);
  inner_->framebuffer = GlFramebuffer::make();
  glBindFramebuffer(GL_FRAMEBUFFER, inner_->framebuffer.name());
  glFramebufferTexture2D(GL_FRAMEBUFFER, GL_COLOR_ATTACHMENT0, GL_TEXTURE_2D, inner_->colour.name(),
                         0);
}
OffscreenTarget::OffscreenTarget(OffscreenTarget&&) noexcept = default;
OffscreenTarget::~OffscreenTarget() = default;

unsigned OffscreenTarget::framebuffer() const {
  return inner_->framebuffer.name();
}
Viewport OffscreenTarget::viewport() const {
  return {0, 0, inner_->width, inner_->height};
}

Image OffscreenTarget::read() const {
  Image image;
  image.width_px = inner_->width;
  image.height_px = inner_->height;
  const std::size_t row = static_cast<std::size_t>(image.width_px) * 4;
  const auto rows = static_cast<std::size_t>(image.height_px);
  std::vector<std::uint8_t> upward(row * rows);
  glBindFramebuffer(GL_FRAMEBUFFER, inner_->framebuffer.name());
  glPixelStorei(GL_PACK_ALIGNMENT, 1);
  glReadPixels(0, 0, image.width_px, image.height_px, GL_RGBA, GL_UNSIGNED_BYTE, upward.data());
  image.rgba.resize(upward.size());
  for (std::size_t y = 0; y < rows; ++y)
    std::memcpy(&image.rgba[y * row], &upward[(rows - 1 - y) * row], row);
  return image;
}

} // namespace lugline

#include "viewer/draw/solid_pass.h"

#include "viewer/draw/arrow.h"
#include "viewer/draw/lighting.h"
#include "viewer/draw/shade_uniforms.h"
#include "viewer/draw/solid_shaders.h"

#include <glm/gtc/matrix_transform.hpp>

#include <algorithm>
#include <array>
#include <cassert>
#include <string>

namespace lugline {
namespace {

constexpr double weave_step_px = 6.4;

/// Matrices and stretch of a part; its mesh is about its own middle.
void set_part(Program& program, const Frame& frame, const FrameItem& item) {
  const glm::dmat4 place = item.place * glm::translate(glm::dmat4(1.0), item.stored->middle_m);
  program.set("u_clip_from_part", glm::mat4(frame.view.clip_from_place * place));
  // A turned and evenly scaled frame keeps its normals square; the shader makes them unit.
  program.set("u_eye_from_part", glm::mat3(glm::dmat3(frame.view.view_from_place * place)));
  program.set("u_place_x", glm::vec4(place[0][0], place[1][0], place[2][0], place[3][0]));
  program.set("u_place_y", glm::vec4(place[0][1], place[1][1], place[2][1], place[3][1]));
  program.set("u_middle", glm::vec3(item.stored->middle_m));
  glm::vec4 stretch(0.0f);
  if (item.item->stretch)
    stretch = glm::vec4(item.item->stretch->zone_low_m - item.stored->middle_m.z,
                        item.item->stretch->zone_high_m - item.stored->middle_m.z,
                        item.item->stretch->delta_m, 1.0);
  program.set("u_stretch", stretch);
}

void set_wedge(Program& program, const Frame& frame, bool cut) {
  const WedgePlanes wedge = cut ? wedge_of(frame.picture->cut) : WedgePlanes{};
  program.set("u_wedge", wedge.planes);
  program.set("u_wedge_kind", wedge.kind);
}

void draw_mesh(const StoredMesh& mesh) {
  glBindVertexArray(mesh.vertices.name());
  glDrawElements(GL_TRIANGLES, mesh.index_count, GL_UNSIGNED_INT, nullptr);
}

void draw_some(const Detail& detail, GLsizei first, GLsizei count) {
  glBindVertexArray(detail.vertices);
  const auto bytes = static_cast<std::size_t>(first) * sizeof(std::uint32_t);
  glDrawElements(GL_TRIANGLES, count, GL_UNSIGNED_INT, reinterpret_cast<const void*>(bytes));
}

bool is_woven(const PictureItem& item) {
  return look_of(item.material) == Look::lining ||
         std::any_of(item.mesh->ranges.begin(), item.mesh->ranges.end(),
                     [](const MaterialRange& r) { return look_of(r.material) == Look::lining; });
}

/// Nearest first, so that what is hidden costs little.
std::vector<const FrameItem*> by_depth(const Frame& frame) {
  std::vector<std::pair<double, const FrameItem*>> order;
  for (const FrameItem& item : frame.items) {
    if (item.id == 0)
      continue;
    double nearest = frame.view.far_m;
    for (const glm::dvec3& c : corners_of(item.stored->bounds, item.item->pose, item.item->stretch))
      nearest = std::min(nearest, frame.view.depth_m(c));
    order.emplace_back(nearest, &item);
  }
  std::stable_sort(order.begin(), order.end(),
                   [](const auto& a, const auto& b) { return a.first < b.first; });
  std::vector<const FrameItem*> items;
  for (const auto& [depth, item] : order)
    items.push_back(item);
  return items;
}

} // namespace

Outcome<Program> SolidPass::link(int needs) {
  std::string wanted;
  if ((needs & cut_need) != 0)
    wanted += "#define CUT\n";
  if ((needs & keyed_need) != 0)
    wanted += "#define KEYED\n";
  if ((needs & woven_need) != 0)
    wanted += "#define WOVEN\n";
  return Program::link("solid", wanted + solid_vertex_source,
                       wanted + lighting_source + key_source + solid_fragment_source,
                       {"a_position", "a_normal", "a_look"});
}

Program& SolidPass::program(int needs) {
  const auto found = programs_.find(needs);
  if (found != programs_.end())
    return found->second;
  auto made = link(needs);
  // All parts of the text compiled together at the start.
  assert(made.ok());
  return programs_.emplace(needs, std::move(made).value()).first->second;
}

Outcome<SolidPass> SolidPass::create() {
  SolidPass pass;
  for (int needs : {0, cut_need | keyed_need | woven_need}) {
    auto made = link(needs);
    if (!made)
      return Problem{made.problem()};
    pass.programs_.emplace(needs, std::move(made).value());
  }
  auto caps = CapPass::create();
  if (!caps)
    return Problem{caps.problem()};
  auto depth = Program::link("ghost depth", std::string("#define CUT\n") + solid_vertex_source,
                             depth_fragment_source, {"a_position", "a_normal", "a_look"});
  if (!depth)
    return Problem{depth.problem()};
  pass.cap_pass_ = std::move(caps).value();
  pass.depth_only_ = std::move(depth).value();
  pass.arrow_mesh_ = std::make_shared<const Mesh>(arrow_mesh());
  return pass;
}

void SolidPass::fit(const Frame& frame) {
  if (buffers_.width == frame.fine_width() && buffers_.height == frame.fine_height())
    return;
  buffers_.width = frame.fine_width();
  buffers_.height = frame.fine_height();
  buffers_.colour = make_texture(TexelKind::rgba8, buffers_.width, buffers_.height, true);
  buffers_.surface = make_texture(TexelKind::rgba8, buffers_.width, buffers_.height, false);
  buffers_.depth = make_texture(TexelKind::depth24, buffers_.width, buffers_.height, false);
  buffers_.framebuffer = GlFramebuffer::make();
  glBindFramebuffer(GL_FRAMEBUFFER, buffers_.framebuffer.name());
  glFramebufferTexture2D(GL_FRAMEBUFFER, GL_COLOR_ATTACHMENT0, GL_TEXTURE_2D,
                         buffers_.colour.name(), 0);
  glFramebufferTexture2D(GL_FRAMEBUFFER, GL_COLOR_ATTACHMENT1, GL_TEXTURE_2D,
                         buffers_.surface.name(), 0);
  glFramebufferTexture2D(GL_FRAMEBUFFER, GL_DEPTH_ATTACHMENT, GL_TEXTURE_2D, buffers_.depth.name(),
                         0);
  const GLenum both[] = {GL_COLOR_ATTACHMENT0, GL_COLOR_ATTACHMENT1};
  glDrawBuffers(2, both);
}

void SolidPass::draw(const Frame& frame, CapStore& caps, DetailStore& details,
                     std::vector<std::string>& unclosed) {
  fit(frame);
  glBindFramebuffer(GL_FRAMEBUFFER, buffers_.framebuffer.name());
  glViewport(0, 0, buffers_.width, buffers_.height);
  glDisable(GL_BLEND);
  glDisable(GL_SCISSOR_TEST);
  glEnable(GL_DEPTH_TEST);
  glDepthMask(GL_TRUE);
  glDepthFunc(GL_LESS);
  glColorMask(GL_TRUE, GL_TRUE, GL_TRUE, GL_TRUE);
  glClearColor(0, 0, 0, 0);
  glClear(GL_COLOR_BUFFER_BIT | GL_DEPTH_BUFFER_BIT);
  if (frame.picture->cut.on)
    cap_pass_.draw(frame, caps, unclosed);
  draw_items(frame, details);
  draw_arrow(frame);
  glDisable(GL_CULL_FACE);
  glDisable(GL_DEPTH_TEST);
}

void SolidPass::draw_items(const Frame& frame, DetailStore& details) {
  glCullFace(GL_BACK);
  glFrontFace(GL_CCW);
  double fade = 0;
  const double px_per_m = px_per_m_at_look(frame);
  const double weave = ladder_step(weave_step_px * frame.options.scale / px_per_m, fade);
  const bool textures = frame.options.quality.textures && !frame.picture->print_look;
  const double coarse_m = frame.options.quality.coarse_px / px_per_m;
  for (const FrameItem* item : by_depth(frame)) {
    const bool woven = textures && is_woven(*item->item);
    const int needs = (has_keys(frame, *item->item) ? keyed_need : 0) | (woven ? woven_need : 0);
    // The inside of a closed part is never seen: its cut face covers it. That
    // also keeps two parts that touch from fighting over one plane.
    if (item->stored->topology.closed)
      glEnable(GL_CULL_FACE);
    else
      glDisable(GL_CULL_FACE);
    const Detail detail = details.at(*item, frame.picture->cut, coarse_m);
    if (detail.whole > 0) {
      set_up(frame, *item, needs, weave);
      draw_some(detail, 0, detail.whole);
    }
    if (detail.rest > 0) {
      set_up(frame, *item, needs | cut_need, weave);
      draw_some(detail, detail.whole, detail.rest);
    }
  }
}

void SolidPass::set_up(const Frame& frame, const FrameItem& item, int needs, double weave_m) {
  Program& solid = program(needs);
  solid.use();
  set_light(solid, frame);
  set_tones(solid, item.item->role, frame.picture->print_look);
  set_part(solid, frame, item);
  set_wedge(solid, frame, (needs & cut_need) != 0);
  if ((needs & keyed_need) != 0)
    set_keys(solid, frame, *item.item);
  solid.set("u_texture_step", weave_m);
  solid.set("u_own", static_cast<int>(own_look(*item.item)));
  solid.set("u_id", item.id);
}

void SolidPass::draw_arrow(const Frame& frame) {
  if (frame.arrow_id == 0)
    return;
  const UpArrow& up = *frame.picture->up;
  const PictureItem plain;
  FrameItem arrow;
  arrow.item = &plain;
  arrow.stored = &arrow_store_.at(arrow_mesh_);
  arrow.id = frame.arrow_id;
  arrow.place = arrow_place(up, item_named(frame, up.item), frame);
  std::array<glm::vec4, look_count> tones{};
  tones.fill(glm::vec4(frame.picture->print_look ? glm::vec3(1.0f) : Inks{}.path, 0.15f));
  Program& solid = program(0);
  solid.use();
  set_light(solid, frame);
  solid.set("u_tones", tones);
  set_part(solid, frame, arrow);
  solid.set("u_own", static_cast<int>(Look::other));
  solid.set("u_id", arrow.id);
  glEnable(GL_CULL_FACE);
  draw_mesh(*arrow.stored);
}

void SolidPass::draw_ghost_depth(const Frame& frame, bool (*of)(const PictureItem&)) {
  if (ghost_width_ != frame.fine_width() || ghost_height_ != frame.fine_height()) {
    ghost_width_ = frame.fine_width();
    ghost_height_ = frame.fine_height();
    ghost_depth_ = make_texture(TexelKind::depth24, ghost_width_, ghost_height_, false);
    ghost_framebuffer_ = GlFramebuffer::make();
    glBindFramebuffer(GL_FRAMEBUFFER, ghost_framebuffer_.name());
    glFramebufferTexture2D(GL_FRAMEBUFFER, GL_DEPTH_ATTACHMENT, GL_TEXTURE_2D, ghost_depth_.name(),
                           0);
    const GLenum none = GL_NONE;
    glDrawBuffers(1, &none);
    glReadBuffer(GL_NONE);
  }
  glBindFramebuffer(GL_FRAMEBUFFER, ghost_framebuffer_.name());
  glViewport(0, 0, ghost_width_, ghost_height_);
  glEnable(GL_DEPTH_TEST);
  glDepthFunc(GL_LESS);
  glDepthMask(GL_TRUE);
  glClear(GL_DEPTH_BUFFER_BIT);
  depth_only_.use();
  for (const FrameItem& item : frame.items) {
    if (!of(*item.item))
      continue;
    set_part(depth_only_, frame, item);
    set_wedge(depth_only_, frame, item.cut);
    draw_mesh(*item.stored);
  }
  glDisable(GL_DEPTH_TEST);
}

} // namespace lugline

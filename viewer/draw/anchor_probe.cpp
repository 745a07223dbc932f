#include "viewer/draw/anchor_probe.h"

#include "viewer/draw/lighting.h"

#include <algorithm>
#include <array>
#include <string>

namespace lugline {
namespace {

constexpr int at_once = 32;

constexpr const char* probe_source = R"(
const int at_once = 32;
uniform sampler2D u_depth;
uniform vec4 u_points[at_once]; // fine pixel, depth allowed
layout(location = 0) out vec4 o_seen;
void main() {
  vec4 point = u_points[int(gl_FragCoord.x)];
  float d = texelFetch(u_depth, ivec2(point.xy), 0).r;
  o_seen = vec4(sight_depth(d) >= point.z ? 1.0 : 0.0);
}
)";

} // namespace

Outcome<AnchorProbe> AnchorProbe::create() {
  AnchorProbe probe;
  auto program = Program::link("anchor", cover_vertex_source(),
                               std::string(buffer_reading_source) + probe_source);
  if (!program)
    return Problem{program.problem()};
  probe.program_ = std::move(program).value();
  probe.texture_ = make_texture(TexelKind::rgba8, at_once, 1, false);
  probe.framebuffer_ = GlFramebuffer::make();
  glBindFramebuffer(GL_FRAMEBUFFER, probe.framebuffer_.name());
  glFramebufferTexture2D(GL_FRAMEBUFFER, GL_COLOR_ATTACHMENT0, GL_TEXTURE_2D, probe.texture_.name(),
                         0);
  return probe;
}

void AnchorProbe::judge(const Frame& frame, const SceneBuffers& scene, const GlVertexArray& empty,
                        std::vector<PlacedAnchor>& anchors) {
  for (std::size_t first = 0; first < anchors.size(); first += at_once) {
    const std::size_t count = std::min<std::size_t>(at_once, anchors.size() - first);
    std::array<glm::vec4, at_once> points{};
    for (std::size_t i = 0; i < count; ++i) {
      const PlacedAnchor& placed = anchors[first + i];
      const double x = std::clamp(placed.anchor.x_px * frame.fine, 0.0, scene.width - 1.0);
      const double y =
          std::clamp(scene.height - placed.anchor.y_px * frame.fine, 0.0, scene.height - 1.0);
      points[i] = glm::vec4(x, y, frame.view.depth_m(placed.point_m) - placed.nearer_m, 0);
    }
    glBindFramebuffer(GL_FRAMEBUFFER, framebuffer_.name());
    glViewport(0, 0, at_once, 1);
    program_.use();
    program_.sample("u_depth", 0, scene.depth);
    program_.set("u_planes", glm::vec2(frame.view.near_m, frame.view.far_m));
    program_.set("u_points", points);
    draw_cover(empty);
    std::array<unsigned char, at_once * 4> seen{};
    glReadPixels(0, 0, at_once, 1, GL_RGBA, GL_UNSIGNED_BYTE, seen.data());
    for (std::size_t i = 0; i < count; ++i) {
      ScreenAnchor& anchor = anchors[first + i].anchor;
      anchor.visible = anchor.on_screen && !anchors[first + i].cut_away && seen[i * 4] > 127;
    }
  }
}

} // namespace lugline

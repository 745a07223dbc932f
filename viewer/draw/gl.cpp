#include "viewer/draw/gl.h"

#include <vector>

namespace lugline {
namespace {

constexpr const char* desktop_header = "#version 330 core\n";
constexpr const char* es_header = "#version 300 es\n"
                                  "precision highp float;\n"
                                  "precision highp int;\n"
                                  "precision highp sampler2D;\n";

bool is_desktop() {
#ifdef __EMSCRIPTEN__
  return false;
#else
  return epoxy_is_desktop_gl();
#endif
}

GLuint compile(GLenum kind, const std::string& source, std::string& log) {
  const GLuint shader = glCreateShader(kind);
  const char* texts[] = {is_desktop() ? desktop_header : es_header, source.c_str()};
  glShaderSource(shader, 2, texts, nullptr);
  glCompileShader(shader);
  GLint done = 0;
  glGetShaderiv(shader, GL_COMPILE_STATUS, &done);
  if (done == GL_TRUE)
    return shader;
  char words[2048] = {};
  glGetShaderInfoLog(shader, sizeof words, nullptr, words);
  log = words;
  glDeleteShader(shader);
  return 0;
}

} // namespace

Outcome<Program> Program::link(const std::string& what, const std::string& vertex,
                               const std::string& fragment,
                               const std::vector<std::string>& attributes) {
  std::string log;
  const GLuint first = compile(GL_VERTEX_SHADER, vertex, log);
  if (first == 0)
    return Problem{"the graphics driver refused the " + what + " vertex shader: " + log};
  const GLuint second = compile(GL_FRAGMENT_SHADER, fragment, log);
  if (second == 0) {
    glDeleteShader(first);
    return Problem{"the graphics driver refused the " + what + " fragment shader: " + log};
  }
  Program made;
  made.program_ = GlName<ProgramKind>::make();
  const GLuint name = made.program_.name();
  glAttachShader(name, first);
  glAttachShader(name, second);
  for (std::size_t i = 0; i < attributes.size(); ++i)
    glBindAttribLocation(name, static_cast<GLuint>(i), attributes[i].c_str());
  glLinkProgram(name);
  glDeleteShader(first);
  glDeleteShader(second);
  GLint done = 0;
  glGetProgramiv(name, GL_LINK_STATUS, &done);
  if (done != GL_TRUE) {
    char words[2048] = {};
    glGetProgramInfoLog(name, sizeof words, nullptr, words);
    return Problem{"the graphics driver refused to link the " + what + " program: " + words};
  }
  return made;
}

GLint Program::at(const char* uniform) {
  const auto found = places_.find(std::string_view(uniform));
  if (found != places_.end())
    return found->second;
  const GLint place = glGetUniformLocation(program_.name(), uniform);
  places_.emplace(uniform, place);
  return place;
}

void Program::set(const char* uniform, int value) {
  glUniform1i(at(uniform), value);
}
void Program::set(const char* uniform, float value) {
  glUniform1f(at(uniform), value);
}
void Program::set(const char* uniform, const glm::vec2& value) {
  glUniform2fv(at(uniform), 1, &value[0]);
}
void Program::set(const char* uniform, const glm::vec3& value) {
  glUniform3fv(at(uniform), 1, &value[0]);
}
void Program::set(const char* uniform, const glm::vec4& value) {
  glUniform4fv(at(uniform), 1, &value[0]);
}
void Program::set(const char* uniform, const glm::ivec2& value) {
  glUniform2i(at(uniform), value.x, value.y);
}
void Program::set(const char* uniform, const glm::mat3& value) {
  glUniformMatrix3fv(at(uniform), 1, GL_FALSE, &value[0][0]);
}
void Program::set(const char* uniform, const glm::mat4& value) {
  glUniformMatrix4fv(at(uniform), 1, GL_FALSE, &value[0][0]);
}
void Program::set(const char* uniform, std::span<const glm::vec4> values) {
  if (!values.empty())
    glUniform4fv(at(uniform), static_cast<GLsizei>(values.size()), &values[0][0]);
}
void Program::sample(const char* uniform, int unit, const GlTexture& texture) {
  glActiveTexture(GL_TEXTURE0 + static_cast<GLenum>(unit));
  glBindTexture(GL_TEXTURE_2D, texture.name());
  set(uniform, unit);
}

GlTexture make_texture(TexelKind kind, int width, int height, bool smooth) {
  GlTexture texture = GlTexture::make();
  glBindTexture(GL_TEXTURE_2D, texture.name());
  switch (kind) {
  case TexelKind::rgba8:
    glTexImage2D(GL_TEXTURE_2D, 0, GL_RGBA8, width, height, 0, GL_RGBA, GL_UNSIGNED_BYTE, nullptr);
    break;
  case TexelKind::r8:
    glTexImage2D(GL_TEXTURE_2D, 0, GL_R8, width, height, 0, GL_RED, GL_UNSIGNED_BYTE, nullptr);
    break;
  case TexelKind::depth24:
    glTexImage2D(GL_TEXTURE_2D, 0, GL_DEPTH_COMPONENT24, width, height, 0, GL_DEPTH_COMPONENT,
                 GL_UNSIGNED_INT, nullptr);
    break;
  }
  const GLint filter = smooth ? GL_LINEAR : GL_NEAREST;
  glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MIN_FILTER, filter);
  glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MAG_FILTER, filter);
  glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_WRAP_S, GL_CLAMP_TO_EDGE);
  glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_WRAP_T, GL_CLAMP_TO_EDGE);
  return texture;
}

bool gl_is_well() {
  bool well = true;
  // A lost context may answer for ever, so the number of questions is bounded.
  for (int i = 0; i < 16 && glGetError() != GL_NO_ERROR; ++i)
    well = false;
  return well;
}

const char* cover_vertex_source() {
  return R"(
out vec2 v_uv;
void main() {
  vec2 corner = vec2(float((gl_VertexID << 1) & 2), float(gl_VertexID & 2));
  v_uv = corner;
  gl_Position = vec4(corner * 2.0 - 1.0, 0.0, 1.0);
}
)";
}

void draw_cover(const GlVertexArray& empty) {
  glBindVertexArray(empty.name());
  glDrawArrays(GL_TRIANGLES, 0, 3);
}

} // namespace lugline

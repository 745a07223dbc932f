// Where in a unit's files a thing was written, so that a later judgement can point at it.
//
// A plain value; nothing here fails.
#pragma once

#include <string>

namespace lugline {

struct SourcePlace {
  std::string file;
  int line = 0;
  int column = 0;
};

} // namespace lugline

// The four views, each filled in its own file. Inside viewer/stage only.
#pragma once

#include "viewer/stage/figures.h"

namespace lugline::figures {

void fill_train(FiguresPage& page, const Stage& stage, const ViewState& view);
void fill_air(FiguresPage& page, const Stage& stage, const ViewState& view);
void fill_pack(FiguresPage& page, const Stage& stage, const ViewState& view);
void fill_play(FiguresPage& page, const Stage& stage, const ViewState& view);

/// That id, or the first, or nothing where there is none.
std::string one_of(const std::vector<std::string>& ids, const std::string& chosen);

} // namespace lugline::figures

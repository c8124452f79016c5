#include "desk/page/opened.hpp"

namespace portwright::desk {
namespace {

/// Cuts that name a file, each as an error.
base::Errors named_files(const cuts::CutList& list) {
  base::Errors errors;
  for (std::size_t i = 0; i < list.size(); ++i) {
    if (list[i].file.empty()) continue;
    errors.push_back({base::ErrorCode::bad_cut,
                      "\u201C" + cuts::cut_text(list[i]) + "\u201D names a file, and none may be read here.",
                      "cuts." + std::to_string(i + 1),
                      "Try it on the command line.",
                      {}});
  }
  return errors;
}

}  // namespace

base::ResultAll<Case> Opened::with(const WhatIf& what_if) const {
  if (!what_if.own_files) {
    const auto list = cuts::parse_cuts(what_if.cuts);
    if (list)
      if (base::Errors named = named_files(*list); !named.empty()) return tl::unexpected(std::move(named));
  }
  return with_cuts(stock_, file_, what_if.cuts);
}

base::ResultAll<OpenedSaw> open_saw(const std::string& file, const std::string& book) {
  auto opened = open_case(file, {}, book);
  if (!opened) return tl::unexpected(opened.error());
  return OpenedSaw(std::make_shared<const Opened>(std::move(*opened), file));
}

}  // namespace portwright::desk

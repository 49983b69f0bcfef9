// SPDX-License-Identifier: MIT
// A document with everything a booklet has, made without the rooms above the writer.
#pragma once

#include <memory>
#include <string>

#include "tests/support/shaped_run.h"

namespace tickleaf::testing {

class SampleBooklet {
  public:
    /// Errors: throws std::runtime_error where the font is not installed.
    SampleBooklet();
    page::Document make(std::size_t pages);

  private:
    std::size_t tag(page::Tag::Role role, std::size_t parent, const std::string& alternative = {});
    void text(page::Page& page, const std::string& words, std::size_t owner, double x, double y);
    void add_page(std::size_t number, const std::shared_ptr<const page::Drawing>& drawing);
    void add_contents(page::Page& page, std::size_t section);
    void add_table(page::Page& page, std::size_t section);
    void add_list(page::Page& page, std::size_t section);

    TestFonts fonts_;
    page::Document document_;
    std::size_t pages_ = 0;
};

} // namespace tickleaf::testing

"""What is typed stays where it is typed, whatever the page does meanwhile."""

from __future__ import annotations

from playwright.sync_api import Page, expect

from page_parts import entry, go_to


def test_a_piece_just_added_does_not_take_the_focus_out_of_another_field(opened: Page) -> None:
    """The new piece's fields come with the answer, when the person may already be typing elsewhere."""
    go_to(opened, "Drawer")
    opened.get_by_role("button", name="Add a piece").tap()
    field = opened.get_by_label("Search the drawer")
    field.fill("")
    field.press_sequentially("126.5 mm", delay=60)
    field.fill("")
    expect(opened.locator(".piece-editor input").first).to_be_visible()
    expect(field).to_be_focused()
    expect(field).to_have_value("")
    expect(entry(opened, "drawer.34.name")).to_have_value("")

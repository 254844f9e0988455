use("recipe", {})

while true do pcall(function() return nothing_is_called_this end) end

package folder

const onWindows = true
